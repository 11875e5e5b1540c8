"""The commands, from a roster to marks, and what they say to bad input."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.command import (
    ALL,
    break_lab,
    copy_lab,
    hand_in_all,
    rows,
    run,
    snapshot,
)
from tests.support.soap import (
    LAB,
    LAB_FOLDER,
    NOON,
    make_course,
    make_hand_in,
    write_hand_in,
)
from workbook.solver.source import KEY_FILE, CourseSource


@pytest.fixture(autouse=True)
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run every command in a folder of its own."""
    monkeypatch.chdir(tmp_path)


def test_mark_gives_every_student_of_the_roster_a_row(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1", "c3"])
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 0
    points = {row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))}
    assert points == {"a1": ALL, "b2": "0", "c3": ALL}
    assert result.output.splitlines()[-1].endswith("Next: open marks/marks.csv.")


def test_mark_gives_every_step_a_row_with_its_reason(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    run("mark", course, "--handins", "in", "--to", "marks")
    found = rows(Path("marks/steps.csv"))
    assert len(found) == 31
    mass = next(row for row in found if row["step"] == "soap_mass")
    assert (mass["outcome"], mass["points"], mass["out_of"]) == ("right", "2", "2")
    assert mass["read_as"].startswith(mass["typed"])
    assert mass["reason"]


def test_a_name_from_the_roster_is_no_formula_in_the_marks(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["b2"])
    run("mark", course, "--handins", "in", "--to", "marks")
    names = {row["name"] for row in rows(Path("marks/marks.csv"))}
    assert "'=cmd|' /C calc'!A0" in names


def test_an_older_hand_in_is_told_of_and_is_no_problem(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    older = make_hand_in(CourseSource(course), "a1", {}, at=NOON)
    write_hand_in(older, tmp_path / "in" / "a1-2.handin.json")
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 0
    (told,) = rows(Path("marks/problems.csv"))
    assert (told["file"], told["kind"]) == ("a1-2.handin.json", "older")


def test_earlier_marks_are_left_as_they_were(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    run("mark", course, "--handins", "in", "--to", "marks")
    Path("marks/marks.csv").write_text("by hand")
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 2
    assert Path("marks/marks.csv").read_text() == "by hand"


def test_a_folder_without_hand_ins_is_told(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    course = make_course(tmp_path)
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 2
    assert "in holds no hand-in" in result.stderr
    assert not Path("marks").exists()


def test_marking_without_the_courses_key_is_told(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    (tmp_path / KEY_FILE).unlink()
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 2
    assert "the course key is not there" in result.stderr


def test_build_writes_both_notebooks_and_check_then_finds_nothing(
    tmp_path: Path,
) -> None:
    lab = copy_lab(tmp_path)
    assert run("build", lab).exit_code == 0
    result = run("check", lab)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.output.splitlines()[-1].startswith(f"Nothing is wrong with {lab}.")


def test_build_says_when_the_notebooks_are_in_step(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    run("build", lab)
    result = run("build", lab)
    assert result.exit_code == 0
    assert "are in step. Nothing was written." in result.output


def test_build_leaves_a_changed_notebook_until_asked(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    run("build", lab)
    (lab / "prelab.ipynb").write_text("mine")
    refused = run("build", lab)
    assert refused.exit_code == 2
    assert "prelab.ipynb differ from what lab.toml gives" in refused.stderr
    assert (lab / "prelab.ipynb").read_text() == "mine"
    assert run("build", lab, "--replace").exit_code == 0
    assert run("check", lab).exit_code == 0


def test_check_tells_what_becomes_of_so_many_draws(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    run("build", lab)
    output = run("check", lab, "--draws", "300").output
    assert f"{lab.name}: 300 draws, " in output
    assert "refused: 'oil_volume' lies on a line of its scale." in output


def test_check_tells_a_step_that_has_nothing_to_work_out(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    file = lab / "lab.toml"
    file.write_text(file.read_text("utf-8").replace("0.911 g", "1.00 g"), "utf-8")
    result = run("check", lab)
    assert result.exit_code == 2
    assert "'oil_mass' has nothing to work out" in result.stderr


def test_check_tells_notebooks_that_are_out_of_step(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    result = run("check", lab)
    assert result.exit_code == 2
    assert f"{lab}/prelab.ipynb: this is not the notebook" in result.stderr
    assert f"{lab}/postlab.ipynb: this is not the notebook" in result.stderr


def test_check_tells_a_mistake_with_file_line_and_nearest_name(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    break_lab(lab)
    result = run("check", lab)
    assert result.exit_code == 2
    lines = (lab / "lab.toml").read_text().splitlines()
    number = next(n for n, line in enumerate(lines, start=1) if "oil.densty" in line)
    assert result.stderr.startswith(f"{lab}/lab.toml:{number}: ")
    assert "Did you mean 'oil.density'?" in result.stderr


def test_the_demonstration_is_right_and_its_notebooks_are_in_step() -> None:
    assert run("check", LAB_FOLDER).exit_code == 0


def test_try_makes_a_folder_that_needs_nothing_else(tmp_path: Path) -> None:
    result = run("try", LAB_FOLDER, "--no-open")
    assert result.exit_code == 0
    folder = tmp_path / "trials" / f"{LAB}-1"
    assert sorted(path.name for path in folder.iterdir()) == [
        ".checker",
        "postlab.ipynb",
        "prelab.ipynb",
        "scheme-neutralisation.svg",
        "scheme.svg",
        "sheet.json",
    ]
    assert result.output.splitlines()[-1].startswith("Next: open trials")


def test_a_second_trial_leaves_the_first_alone(tmp_path: Path) -> None:
    run("try", LAB_FOLDER, "--no-open")
    before = snapshot(tmp_path / "trials" / f"{LAB}-1")
    run("try", LAB_FOLDER, "--no-open")
    assert snapshot(tmp_path / "trials" / f"{LAB}-1") == before
    assert (tmp_path / "trials" / f"{LAB}-2").is_dir()


def test_try_opens_the_pre_lab_with_this_interpreter(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    seen: list[list[str]] = []
    monkeypatch.setattr(
        "workbook.cli.subprocess.run", lambda command, **_: seen.append(command)
    )
    monkeypatch.setattr("workbook.cli.os.geteuid", lambda: 1000)
    assert run("try", LAB_FOLDER).exit_code == 0
    assert seen[0][1:] == [
        "-m",
        "jupyter",
        "lab",
        f"--ServerApp.root_dir={tmp_path.resolve()}/trials/{LAB}-1",
        "--LabApp.default_url=/lab/tree/prelab.ipynb",
    ]


def test_try_tells_jupyterlab_that_root_is_meant(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    seen: list[list[str]] = []
    monkeypatch.setattr(
        "workbook.cli.subprocess.run", lambda command, **_: seen.append(command)
    )
    monkeypatch.setattr("workbook.cli.os.geteuid", lambda: 0)
    assert run("try", LAB_FOLDER).exit_code == 0
    assert seen[0][-1] == "--allow-root"


def test_try_finds_the_demonstration_in_the_repository(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copytree(LAB_FOLDER, tmp_path / "exercises" / LAB)
    assert run("try", "--no-open").exit_code == 0


def test_try_elsewhere_asks_for_a_lab() -> None:
    result = run("try", "--no-open")
    assert result.exit_code == 2
    assert "Give the folder of one: workbook try FOLDER" in result.stderr


def test_try_tells_what_stands_before_the_readings() -> None:
    result = run("try", LAB_FOLDER, "--no-open")
    assert "shown when 3 questions before it are right" in result.output


def test_a_command_waits_for_nothing_that_it_does_not_need() -> None:
    said = (
        "import sys; from workbook.cli import main;"
        "main(['check', '--help'], standalone_mode=False); print(*sys.modules)"
    )
    found = subprocess.run(
        [sys.executable, "-c", said], capture_output=True, text=True, check=True
    )
    assert {"pandas", "matplotlib"}.isdisjoint(found.stdout.split())
