"""What an explanation claims of the plausible numbers; logarithms by hand."""

from __future__ import annotations

import math
import random

import pytest

from workbook.graph.span import Span
from workbook.judge.claim import MOST, claim

# log10(2.005 / 1.995) / 2 and log10(9.005 / 8.995) / 2: a cell of three figures
TWO, NINE = 0.0010857, 0.0002413


@pytest.mark.parametrize(("value", "share"), [(2.0, TWO), (9.0, NINE), (0.2, TWO)])
def test_a_number_claims_what_rounds_to_it(value: float, share: float) -> None:
    assert claim([Span(value, value)], 1.0, 3) == pytest.approx(share, rel=1e-3)


def test_a_figure_more_claims_a_tenth() -> None:
    assert claim([Span(2.0, 2.0)], 1.0, 4) == pytest.approx(TWO / 10, rel=1e-3)


def test_a_span_claims_all_its_length() -> None:
    # From 1.995 to 4.005.
    expected = math.log10(4.005 / 1.995) / 2
    assert claim([Span(2.0, 4.0)], 1.0, 3) == pytest.approx(expected)


def test_what_is_claimed_twice_counts_once() -> None:
    span = Span(2.0, 4.0)
    both = claim([span, Span(3.0, 3.5), span], 1.0, 3)
    assert both == pytest.approx(claim([span], 1.0, 3))


@pytest.mark.parametrize("value", [-2.0, 0.0, 20.0, 0.05, math.nan, math.inf])
def test_what_nobody_would_guess_claims_nothing(value: float) -> None:
    assert claim([Span(value, value)], 1.0, 3) == 0.0


@pytest.mark.parametrize("right", [0.0, math.nan, math.inf])
def test_beside_no_right_value_nothing_is_plausible(right: float) -> None:
    assert claim([Span(2.0, 2.0)], right, 3) == 0.0


def test_a_value_below_zero_is_plausible_beside_another() -> None:
    assert claim([Span(-2.0, -2.0)], -1.0, 3) == pytest.approx(TWO, rel=1e-3)


def test_the_share_is_that_of_numbers_typed_at_random() -> None:
    chance = random.Random(2)  # noqa: S311 - a test hides nothing
    typed = [float(f"{10 ** chance.uniform(-1, 1):.2e}") for _ in range(100_000)]
    hits = sum(1.995 <= each <= 4.005 for each in typed)
    expected = claim([Span(2.0, 4.0)], 1.0, 3)
    assert hits / len(typed) == pytest.approx(expected, rel=0.03)


def test_three_figures_tell_unless_the_first_is_one() -> None:
    point = {value: claim([Span(value, value)], 1.0, 3) for value in (1.02, 1.3, 5.0)}
    assert [share <= MOST for share in point.values()] == [False, True, True]
