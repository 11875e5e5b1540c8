"""A desk on a class of three, two of whom handed in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.marked import mark_class
from tests.support.soap import make_course
from workbook.desk.work import Work
from workbook.front.look import lay_look
from workbook.labfile.roster import read_roster
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from workbook.front.look import Look
    from workbook.marking.result import SheetMark


@pytest.fixture(scope="session")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="session")
def marks(source: CourseSource) -> list[SheetMark]:
    return mark_class(source)


@pytest.fixture
def work(source: CourseSource, marks: Sequence[SheetMark], tmp_path: Path) -> Work:
    """Return a desk whose decisions are kept in a folder of the test's own."""
    return Work(source, read_roster(source.course.roster), marks, tmp_path)


@pytest.fixture
def look() -> Look:
    return lay_look()
