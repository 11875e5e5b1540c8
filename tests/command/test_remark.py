"""Marking again after the scheme was changed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.support.command import mark_once, rows, run
from workbook.cli import main


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of a course that was marked once."""
    folder = tmp_path_factory.mktemp("marked")
    mark_once(folder)
    return folder


@pytest.fixture
def course(tmp_path: Path, marked: Path) -> Path:
    """Return a copy of the course that was marked once."""
    shutil.copytree(marked, tmp_path, dirs_exist_ok=True)
    return tmp_path / "course.toml"


def change(course: Path, points: int) -> None:
    """Make the order of pressing worth other points; it was worth 2."""
    text = course.read_text(encoding="utf-8")
    added = f"[marks.points]\norder = {points}\n"
    course.write_text(f"{text}{added}", encoding="utf-8")


def again(course: Path, *more: str, typed: str = "") -> Result:
    words = [
        "mark",
        str(course),
        "--handins",
        "in",
        "--to",
        "two",
        "--against",
        "marks",
    ]
    return CliRunner().invoke(main, [*words, "--against", "marks", *more], input=typed)


def points_in(folder: str) -> dict[str, str]:
    found = rows(Path(folder, "marks.csv"))
    return {row["student"]: row["points"] for row in found}


def test_each_change_is_told_before_anything_is_written(course: Path) -> None:
    change(course, 3)
    result = again(course, typed="n\n")
    assert result.exit_code == 1
    assert "a1  olive-oil-soap  59 -> 60\n    pressing  2 -> 3\n" in result.output
    assert "b2  olive-oil-soap  59 -> 60" in result.output
    assert not Path("two").exists()


def test_what_is_agreed_to_is_written_and_logged(course: Path) -> None:
    change(course, 3)
    assert again(course, typed="y\n").exit_code == 0
    assert points_in("two") == {"a1": "60", "b2": "60", "c3": "0"}
    log = rows(Path("two/changes.csv"))
    assert [(row["student"], row["step"], row["before"], row["after"]) for row in log][
        :2
    ] == [("a1", "", "59", "60"), ("a1", "pressing", "2", "3")]
    assert log[1]["reason"]


def test_the_log_goes_on_from_marking_to_marking(course: Path) -> None:
    change(course, 3)
    again(course, "--yes")
    text = course.read_text(encoding="utf-8").replace("order = 3", "order = 1")
    course.write_text(text, encoding="utf-8")
    words = ("mark", course, "--handins", "in", "--to", "three", "--against", "two")
    run(*words, "--yes")
    log = rows(Path("three/changes.csv"))
    sheets = [row for row in log if row["student"] == "a1" and not row["step"]]
    assert [(row["before"], row["after"]) for row in sheets] == [
        ("59", "60"),
        ("60", "58"),
    ]


def test_with_rises_only_nobody_falls(course: Path) -> None:
    change(course, 1)
    result = again(course, "--raise-only", "--yes")
    assert "59 -> 58; the earlier mark stands" in result.output
    assert points_in("two") == {"a1": "59", "b2": "59", "c3": "0"}
    assert rows(Path("two/changes.csv"))[0]["counts"] == "59"


def test_where_nothing_changes_nobody_is_asked(course: Path) -> None:
    result = again(course)
    assert result.exit_code == 0
    assert "Nothing changes for anybody." in result.output
    assert points_in("two") == points_in("marks")


def test_rises_only_need_something_to_rise_from(course: Path) -> None:
    words = ("mark", course, "--handins", "in", "--to", "two", "--raise-only")
    result = run(*words)
    assert result.exit_code == 2
    assert "--raise-only needs --against" in result.stderr
