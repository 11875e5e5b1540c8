"""A class of three on the olive-oil lab, two of whom handed in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.marked import mark_class
from tests.support.soap import make_course
from workbook.labfile.roster import read_roster
from workbook.report.handback import gather_marked
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark
    from workbook.report.page import Marked


@pytest.fixture(scope="session")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="session")
def roster(source: CourseSource) -> tuple[Student, ...]:
    return read_roster(source.course.roster)


@pytest.fixture(scope="session")
def marks(source: CourseSource) -> list[SheetMark]:
    return mark_class(source)


@pytest.fixture(scope="session")
def marked(
    source: CourseSource, roster: tuple[Student, ...], marks: list[SheetMark]
) -> list[Marked]:
    return list(gather_marked(source, roster, marks))
