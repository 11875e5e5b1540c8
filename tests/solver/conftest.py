"""A course of three students, and a desk that serves it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL
from tests.support.soap import LAB, STUDENTS, make_course
from tests.support.student import make_case
from workbook.solver.desk import Desk
from workbook.solver.practice import PracticeSource
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case


@pytest.fixture(scope="session")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="session")
def practice() -> PracticeSource:
    return PracticeSource(OLIVE_OIL)


@pytest.fixture(scope="session")
def case(source: CourseSource) -> Case:
    """Return the case of the first student."""
    return source.cases(LAB, STUDENTS[:1])[0]


@pytest.fixture(scope="session")
def known_case(compiled: CompiledGraph) -> Case:
    """Return the student of `tests.support.student`, worked out by hand."""
    return make_case(compiled)


@pytest.fixture
def desk(source: CourseSource) -> Desk:
    return Desk(source)
