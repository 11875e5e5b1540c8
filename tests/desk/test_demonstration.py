"""A course that never was, marked in a folder of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.lab import OLIVE_OIL
from workbook.desk.demonstration import make_demonstration
from workbook.marking.record import read_record

if TYPE_CHECKING:
    from pathlib import Path


def test_every_student_of_the_roster_is_marked(tmp_path: Path) -> None:
    course, marks = make_demonstration(OLIVE_OIL.parent / "course.toml", tmp_path)
    recorded = read_record(marks)
    roster = (tmp_path / "roster.csv").read_text(encoding="utf-8").splitlines()
    # A line for each student below the head.
    assert len(recorded) == len(roster) - 1
    assert course == tmp_path / "course.toml"
    assert len({mark.points for mark in recorded}) > 1
