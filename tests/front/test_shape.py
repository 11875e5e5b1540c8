"""The marks in the margin."""

from __future__ import annotations

import re

import pytest

from workbook.front.shape import PATHS, draw
from workbook.wire.verdict import Outcome


def test_no_two_outcomes_share_a_mark() -> None:
    assert set(PATHS) == set(Outcome)
    assert len(set(PATHS.values())) == len(Outcome)


@pytest.mark.parametrize("outcome", Outcome)
def test_a_mark_starts_inside_its_field_and_is_not_read_aloud(outcome: Outcome) -> None:
    shown = draw(outcome)
    starts = [float(n) for pair in re.findall(r"M(\d+) (\d+)", shown) for n in pair]
    assert starts
    assert all(0 <= number <= 28 for number in starts)
    assert 'aria-hidden="true"' in shown
