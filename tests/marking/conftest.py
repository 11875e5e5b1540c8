"""A course of three students on the olive-oil lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, STUDENTS, answer_rightly, make_course
from workbook.labfile.roster import read_roster
from workbook.marking.acceptance import expect
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask, PublicHalf
    from workbook.marking.acceptance import Expected
    from workbook.wire.answer import Answer


@pytest.fixture(scope="session")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="session")
def case(source: CourseSource) -> Case:
    """Return the case of the first student."""
    return source.cases(LAB, STUDENTS)[0]


@pytest.fixture
def answers(case: Case) -> dict[str, Answer]:
    """Return the first student's right answers."""
    return answer_rightly(case)


@pytest.fixture(scope="session")
def public(source: CourseSource) -> PublicHalf:
    return source.labs[LAB].public


@pytest.fixture(scope="session")
def asks(public: PublicHalf) -> dict[str, Ask]:
    return {ask.id: ask for ask in public.asks}


@pytest.fixture(scope="session")
def expected(source: CourseSource) -> Expected:
    return expect(source, read_roster(source.course.roster))
