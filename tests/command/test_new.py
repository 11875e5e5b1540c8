"""A new lab can be checked, built and tried as it stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.command import run, snapshot


def test_a_new_lab_passes_check_and_its_notebooks_are_in_step(tmp_path: Path) -> None:
    lab = tmp_path / "limestone"
    made = run("new", lab)
    assert made.exit_code == 0
    assert made.output.startswith(f"Wrote {lab}")
    assert run("check", lab, "--draws", "50").exit_code == 0
    assert "Nothing was written" in run("build", lab).output


def test_a_new_lab_can_be_tried(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    run("new", "limestone", "--reaction", "CaCO3 -> CaO + CO2")
    result = run("try", "limestone", "--no-open")
    assert result.exit_code == 0
    assert Path("trials/limestone-1/prelab.ipynb").is_file()


def test_the_reaction_stands_in_the_file(tmp_path: Path) -> None:
    lab = tmp_path / "salt"
    run("new", lab, "--reaction", "metal=Mg + HCl -> MgCl2 + H2")
    text = (lab / "lab.toml").read_text(encoding="utf-8")
    assert 'equation = "metal + 2 HCl -> MgCl2 + H2"' in text
    assert '[species.metal]\nname    = "metal"\nformula = "Mg"' in text


def test_an_earlier_folder_is_left_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "salt").mkdir()
    (tmp_path / "salt" / "lab.toml").write_text("mine")
    result = run("new", tmp_path / "salt")
    assert result.exit_code == 2
    assert snapshot(tmp_path) == {"salt/lab.toml": b"mine"}


@pytest.mark.parametrize("reaction", ["Mg + 3 HCl -> MgCl2 + H2", "x", "Mg -> "])
def test_a_reaction_that_can_not_stand_makes_nothing(
    tmp_path: Path, reaction: str
) -> None:
    result = run("new", tmp_path / "salt", "--reaction", reaction)
    assert result.exit_code == 2
    assert result.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_course_is_begun_with_its_file_and_a_roster(tmp_path: Path) -> None:
    result = run("new", tmp_path / "salt-1", "--course")
    assert result.exit_code == 0
    made = sorted(path.name for path in (tmp_path / "salt-1").iterdir())
    assert made == ["course.toml", "roster.csv"]
    assert "explains every setting" in result.output
