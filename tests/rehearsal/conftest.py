"""A case worked out by hand, and papers on it."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case
from workbook.rehearsal.habit import EXACT
from workbook.rehearsal.paper import Paper

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case

#: Who rounds each number to three figures, and goes on with those.
THREE = replace(EXACT, figures=3, guard=0, rounds_on_the_way=True)


@pytest.fixture
def chance() -> random.Random:
    return random.Random(1)  # noqa: S311 - a test hides nothing


@pytest.fixture(scope="session")
def case(compiled: CompiledGraph) -> Case:
    """Return the student of `tests.support.student`."""
    return make_case(compiled)


@pytest.fixture
def paper(case: Case, chance: random.Random) -> Paper:
    return Paper(case, EXACT, chance, {})
