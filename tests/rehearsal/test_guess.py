"""Guesses, and how often they should be right."""

from __future__ import annotations

import math
import random
from decimal import Decimal

import pytest

from workbook.graph.span import Span
from workbook.judge.own import Own
from workbook.measure.figures import Known
from workbook.rehearsal.guess import chance_of_right, guess

OWN = Own(Span(11.3, 11.5), Known(Decimal("11.4"), -1))


def chance() -> random.Random:
    return random.Random(5)  # noqa: S311 - a test hides nothing


def test_a_guess_lies_within_a_factor_of_ten_with_proper_figures() -> None:
    source = chance()
    guesses = [guess(OWN, source) for _ in range(2000)]
    assert all(Decimal("1.14") <= each <= Decimal(114) for each in guesses)
    assert all(len(each.as_tuple().digits) == 3 for each in guesses)


def test_as_many_lie_above_as_below() -> None:
    source = chance()
    above = sum(guess(OWN, source) > Decimal("11.4") for _ in range(4000))
    # Four spreads of a fair coin: 4 × sqrt(4000) / 2 = 126.
    assert abs(above - 2000) < 126


def test_a_band_of_some_width_is_hit_as_often_as_its_logarithm_says() -> None:
    # Typed to tenths, 11.25 to 11.55 count, as both of their ends are rounded inwards.
    expected = math.log10(11.55 / 11.25) / 2
    assert chance_of_right(OWN, 0.0) == pytest.approx(expected)
    source, number = chance(), 200_000
    hits = sum(11.25 < float(guess(OWN, source)) < 11.55 for _ in range(number))
    assert hits / number == pytest.approx(expected, rel=0.1)


def test_a_wider_band_is_hit_more_often() -> None:
    assert chance_of_right(OWN, 0.5) > chance_of_right(OWN, 0.0)


def test_an_exact_value_is_guessed_with_three_figures() -> None:
    own = Own(Span(2.0, 2.0), Known(Decimal(2), None))
    assert len(guess(own, chance()).as_tuple().digits) == 3
