"""A case and its conventions can be told apart, and not be changed."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest

from workbook.judge.case import Case, Convention
from workbook.measure.rounding import Ties
from workbook.measure.written import Comma


def test_the_conventions_of_a_course_that_chooses_none() -> None:
    assert Convention() == Convention(Comma.ASK, Ties.EVEN, 1)


def test_a_case_can_not_be_changed(case: Case) -> None:
    with pytest.raises(FrozenInstanceError):
        case.convention = Convention(figures_slack=9)  # type: ignore[misc]  # on purpose
