"""Rounding agrees with the textbooks, digit for digit."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.measure.rounding import (
    Ties,
    round_figures,
    round_place,
    round_up,
    write,
    write_power,
)

NUMBERS = st.decimals(
    min_value=-(10**9), max_value=10**9, allow_nan=False, allow_infinity=False
)


@pytest.mark.parametrize(
    ("value", "figures", "rounded"),
    [
        # Chemistry 2e (OpenStax), section 1.5, text.
        ("0.028675", 3, "0.0287"),
        ("18.3384", 3, "18.3"),
        ("6.8752", 3, "6.88"),
        ("92.85", 3, "92.8"),
        # The same, example 1.3.
        ("31.57", 2, "32"),
        ("8.1649", 3, "8.16"),
        ("0.051065", 4, "0.05106"),
        ("0.90275", 4, "0.9028"),
        # The same, check after example 1.3.
        ("0.424", 2, "0.42"),
        ("0.0038661", 3, "0.00387"),
        ("421.25", 4, "421.2"),
        ("28683.5", 5, "28684"),
        # The same, end of chapter.
        ("0.436", 2, "0.44"),
        ("9.000", 2, "9.0"),
        ("27.2", 2, "27"),
        ("135", 2, "140"),
        ("0.001497", 2, "0.0015"),
        ("0.445", 2, "0.44"),
        # NIST SP 811 (2008), B.7.1.
        ("6.9749515", 3, "6.97"),
        ("6.9749515", 5, "6.9750"),
        ("6.9749515", 7, "6.974952"),
        ("6.9749505", 7, "6.974950"),
    ],
)
def test_ties_to_even_round_as_published(
    value: str, figures: int, rounded: str
) -> None:
    assert write(round_figures(Decimal(value), figures, Ties.EVEN)) == rounded


@pytest.mark.parametrize(
    ("value", "rounded"),
    [("5.215", "5.22"), ("5.213", "5.21"), ("5.005", "5.01"), ("5.004", "5.00")],
)
def test_ties_away_from_zero_round_as_published(value: str, rounded: str) -> None:
    # General Chemistry (Saylor, v1.0), Essential Skills 1.
    assert write(round_figures(Decimal(value), 3, Ties.UP)) == rounded


def test_the_two_rules_for_ties_differ() -> None:
    # OpenStax 1.5 and SP 811 go to even; both Saylor texts go up.
    tie = Decimal("5.005")
    assert write(round_figures(tie, 3, Ties.EVEN)) == "5.00"
    assert write(round_figures(tie, 3, Ties.UP)) == "5.01"


def test_up_is_away_from_zero_for_a_negative_value() -> None:
    assert write(round_figures(Decimal("-2.5"), 1, Ties.UP)) == "-3"
    assert write(round_place(Decimal("-2.5"), 0, Ties.EVEN)) == "-2"


@pytest.mark.parametrize(
    ("value", "place", "rounded"),
    [
        # Chemistry 2e (OpenStax), section 1.5, example 1.4 and its check.
        ("5.3853", -3, "5.385"),
        ("64.77", 0, "65"),
        ("2.644", -2, "2.64"),
        ("0.6578", -3, "0.658"),
        # JCGM 100:2008 (GUM), 7.2.6: a value rounded to its uncertainty of 27 milliohm.
        ("10.05762", -3, "10.058"),
        # Chemistry 2e, 1.5, end of chapter: a sum known to tens.
        ("27439.7393", 1, "27440"),
    ],
)
def test_places_round_as_published(value: str, place: int, rounded: str) -> None:
    assert write(round_place(Decimal(value), place, Ties.EVEN)) == rounded


def test_an_uncertainty_can_be_rounded_up() -> None:
    # JCGM 100:2008 (GUM), 7.2.6: 10.47 milliohm becomes 11; 28.05 kHz becomes 28.
    assert write(round_up(Decimal("10.47"), 2)) == "11"
    assert write(round_figures(Decimal("28.05"), 2, Ties.EVEN)) == "28"


def test_rounding_that_carries_keeps_the_number_of_figures() -> None:
    # By hand: 9.96 to two figures is 10, in which both digits count.
    assert write_power(round_figures(Decimal("9.96"), 2, Ties.EVEN)) == "1.0 × 10^1"
    assert write(round_place(Decimal("99.96"), -1, Ties.EVEN)) == "100.0"


def test_missing_figures_are_filled_with_zeros() -> None:
    assert write(round_figures(Decimal(9), 3, Ties.EVEN)) == "9.00"


def test_a_value_far_below_the_place_becomes_zero() -> None:
    assert write(round_place(Decimal("0.00004"), -2, Ties.EVEN)) == "0.00"
    assert write(round_place(Decimal("-0.00004"), -2, Ties.EVEN)) == "0.00"


def test_a_power_of_ten_shows_which_zeros_count() -> None:
    # Chemistry 2e (OpenStax), section 1.5, end of chapter: 628 times 342.
    product = round_figures(Decimal(628) * 342, 3, Ties.EVEN)
    assert write_power(product) == "2.15 × 10^5"


@given(NUMBERS, st.integers(-6, 6), st.sampled_from(Ties))
def test_rounding_moves_a_value_by_half_a_unit_at_most(
    value: Decimal, place: int, ties: Ties
) -> None:
    moved = abs(round_place(value, place, ties) - value)
    assert moved <= Decimal(5).scaleb(place - 1)


@given(NUMBERS.filter(bool), st.integers(1, 12), st.sampled_from(Ties))
def test_rounding_twice_is_rounding_once(
    value: Decimal, figures: int, ties: Ties
) -> None:
    once = round_figures(value, figures, ties)
    assert str(round_figures(once, figures, ties)) == str(once)
