"""A student whose values were worked out by hand, and a class that was drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case
from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.solver.bench import Bench, prepare

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case
    from workbook.labfile.half import Lab

CLASS_SIZE = 400


@pytest.fixture(scope="session")
def case(compiled: CompiledGraph) -> Case:
    """Return the student of `tests.support.student`."""
    return make_case(compiled)


@pytest.fixture(scope="session")
def bench(lab: Lab) -> Bench:
    return prepare(lab, Conventions())


@pytest.fixture(scope="session")
def drawn_class(bench: Bench) -> list[Case]:
    """Return a class of 400, the same in every run."""
    students = [f"s{number}" for number in range(CLASS_SIZE)]
    return bench.draw(CourseKey(b"a key for tests, of 32 bytes ..."), students)
