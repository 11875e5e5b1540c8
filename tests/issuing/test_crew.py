"""The same folders and the same answer book, whoever makes them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.command import snapshot
from tests.support.soap import make_course
from workbook.errors import TaskError
from workbook.issuing import crew
from workbook.issuing.crew import issue_batch, issue_by_crew
from workbook.labfile.enrolment import read_students
from workbook.solver.crew import Crew
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.service
def test_processes_make_the_same_folders_and_pages(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = CourseSource(make_course(tmp_path))
    roster = read_students(source.course.roster)
    alone = list(issue_by_crew(tmp_path / "alone", source, roster, Crew(1)))
    monkeypatch.setattr("workbook.solver.crew.BATCH", 2)
    monkeypatch.setattr(crew, "count_workers", lambda *_: 2)
    together = list(issue_by_crew(tmp_path / "together", source, roster, Crew(2)))
    assert together == alone
    assert snapshot(tmp_path / "together") == snapshot(tmp_path / "alone")


def test_a_worker_with_another_course_makes_nothing(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    roster = read_students(CourseSource(course).course.roster)
    with pytest.raises(TaskError, match="finds another course"):
        issue_batch(str(course), "00" * 32, str(tmp_path / "out"), "x", roster)
    assert not (tmp_path / "out").exists()
