"""The desk, opened for a demonstration and for a course."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.command import hand_in_all, run
from tests.support.lab import OLIVE_OIL
from tests.support.soap import make_course
from workbook.desk import open_desk
from workbook.errors import AuthorError

if TYPE_CHECKING:
    from pathlib import Path

EXERCISES = OLIVE_OIL.parent


def test_a_demonstration_needs_a_course_only_and_leaves_it_as_it_was() -> None:
    before = sorted(path.name for path in EXERCISES.iterdir())
    desk = open_desk(EXERCISES / "course.toml")
    try:
        assert "texts to mark" in desk.queue().list.value
        assert "points." in desk.sheet().sheet.value
        assert desk.read()._repr_mimebundle_()["text/plain"] == "desk: read"
        assert desk.calibrate()._repr_mimebundle_()["text/plain"] == "desk: calibrate"
    finally:
        desk.leave()
    assert sorted(path.name for path in EXERCISES.iterdir()) == before


def test_a_desk_opens_on_what_was_marked(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    marks = tmp_path / "marks"
    run("mark", course, "--handins", tmp_path / "in", "--to", marks)
    desk = open_desk(course, marks)
    assert "1 of 3 students handed in." in desk.survey().report.value
    desk.leave()
    assert marks.is_dir()


def test_a_folder_that_is_no_marking_is_told(tmp_path: Path) -> None:
    with pytest.raises(AuthorError, match="record"):
        open_desk(make_course(tmp_path), tmp_path)
