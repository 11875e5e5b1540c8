"""Columns with bounds: the arithmetic of one student, for a class at once."""

from __future__ import annotations

import operator
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from workbook.draw.bounded import FUNCTIONS, Bounded, magnitude

if TYPE_CHECKING:
    from collections.abc import Callable


def made(low: float, high: float, place: int) -> Bounded:
    """Return one value in the middle of two bounds."""
    ends = np.array([low]), np.array([high])
    return Bounded(*ends, np.array([(low + high) / 2]), np.array([float(place)]))


def ends(bounded: Bounded) -> tuple[float, float]:
    return round(float(bounded.low[0]), 9), round(float(bounded.high[0]), 9)


# By hand: the worst of all four combinations of the ends.
@pytest.mark.parametrize(
    ("sign", "expected"),
    [
        (operator.add, (2.4, 3.6)),
        (operator.sub, (-0.2, 1.0)),
        (operator.mul, (1.4 * 1, 2 * 1.6)),
        (operator.truediv, (1.4 / 1.6, 2.0)),
    ],
)
def test_an_operation_takes_the_worst_of_the_ends(
    sign: Callable[[Any, Any], Bounded], expected: tuple[float, float]
) -> None:
    found = sign(made(1.4, 2.0, -1), made(1.0, 1.6, -1))
    assert ends(found) == pytest.approx(expected)


def test_a_negative_factor_turns_the_ends() -> None:
    assert ends(made(1.0, 2.0, 0) * -made(3.0, 4.0, 0)) == (-8.0, -3.0)


def test_a_division_by_what_may_be_zero_has_no_value() -> None:
    with np.errstate(all="ignore"):
        assert np.isnan((made(1.0, 2.0, 0) / made(-1.0, 1.0, 0)).low[0])


# Rules of significant figures: OpenStax, Chemistry 2e, section 1.5.
@pytest.mark.parametrize(
    ("found", "place"),
    [
        (made(2.34, 2.34, -2) + made(1.1, 1.1, -1), -1),
        (made(0.6238, 0.6238, -4) * made(6.6, 6.6, -1), -1),
        (made(421.23, 421.23, -2) / made(486, 486, 0), -3),
        (made(5.0, 5.0, -1) ** 2, 0),
        (FUNCTIONS["log10"](made(0.0333, 0.0333, -4)), -3),
        # A pH of 1.48 is 0.033 mol/L, and one of 3 is good to one figure.
        (FUNCTIONS["exp10"](made(-1.48, -1.48, -2)), -3),
        (FUNCTIONS["exp10"](made(-3.0, -3.0, 0)), -3),
        (FUNCTIONS["sqrt"](made(16.0, 16.0, -1)), -2),
    ],
)
def test_a_result_is_good_to_its_proper_place(found: Bounded, place: int) -> None:
    assert float(found.place[0]) == place


def test_a_counted_number_limits_no_figures() -> None:
    found = made(0.0125, 0.0125, -4) * Bounded.exactly(3)
    assert float(found.figures[0]) == 3


def test_a_result_is_rounded_before_it_is_used() -> None:
    # 1.23 × 4.56 = 5.6088, good to hundredths: half a hundredth on both sides.
    product = made(1.23, 1.23, -2) * made(4.56, 4.56, -2)
    assert ends(product) == (5.6088, 5.6088)
    assert ends(product + Bounded.exactly(0)) == (5.6038, 5.6138)


@pytest.mark.parametrize(("name", "expected"), [("min", (1, 2)), ("max", (2, 3))])
def test_the_least_and_the_greatest_are_bounded_apart(
    name: str, expected: tuple[float, float]
) -> None:
    assert ends(FUNCTIONS[name](made(1, 3, 0), made(2, 2, 0))) == expected


def test_a_power_below_zero_divides() -> None:
    # A square of 4 to 16 may be rounded to tens before it divides: by 4.0, at most.
    found = made(20.0, 40.0, 0) ** -2
    assert ends(found) == pytest.approx((1 / 1605, 1 / 395), abs=1e-9)


def test_widening_and_standing_alone() -> None:
    assert ends(made(1.0, 3.0, 0).alone().widened(np.array([0.5]))) == (1.5, 2.5)


@pytest.mark.parametrize(("value", "power"), [(0.0129, -2), (1.0, 0), (-250.0, 2)])
def test_the_magnitude_is_that_of_the_first_digit(value: float, power: int) -> None:
    assert float(magnitude(np.array(value))) == power
