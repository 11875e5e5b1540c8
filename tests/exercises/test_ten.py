"""A class marked, and ten of it held against a table worked out by hand."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.support.command import rows, run
from tests.support.soap import LAB_FOLDER
from tests.support.ten import TOTALS, hand_in_ten, write_course


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    shutil.copytree(LAB_FOLDER, tmp_path / LAB_FOLDER.name)
    return write_course(tmp_path, [f"s{number}" for number in range(10)])


def test_ten_among_others_have_the_totals_of_the_table(course: Path) -> None:
    assert run("pretend", course, "--to", "in").exit_code == 0
    # The ten hand in what is known of them, and not what was made up.
    for path in Path("in").glob("ten-*"):
        path.unlink()
    hand_in_ten(course, Path("in"))
    run("mark", course, "--handins", "in", "--to", "marks")
    points = {row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))}
    assert {student: points[student] for student in TOTALS} == TOTALS
