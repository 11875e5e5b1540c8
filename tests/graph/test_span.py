"""Interval arithmetic, by its definition: every value of the inputs lands inside."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.graph.span import ROUND_OFF, Span, highest, lowest, mapped

NUMBER = st.floats(-1e3, 1e3)
SHARE = st.floats(0, 1)


@st.composite
def spans(draw: st.DrawFn) -> tuple[Span, float]:
    """Draw a span, and a value in it."""
    low, high = sorted((draw(NUMBER), draw(NUMBER)))
    value = low + draw(SHARE) * (high - low)
    return Span(low, high), min(max(value, low), high)


def inside(span: Span, value: float) -> bool:
    """Tell whether a span holds a value, but for what floats round off."""
    slack = ROUND_OFF * max(abs(span.low), abs(span.high), 1.0)
    return span.low - slack <= value <= span.high + slack


@given(spans(), spans())
def test_sums_differences_and_products_hold_every_value(
    first: tuple[Span, float], second: tuple[Span, float]
) -> None:
    (a, x), (b, y) = first, second
    assert inside(a + b, x + y)
    assert inside(a - b, x - y)
    assert inside(a * b, x * y)
    assert inside(-a, -x)
    assert inside(lowest(a, b), min(x, y))
    assert inside(highest(a, b), max(x, y))


@given(spans(), st.floats(0.1, 10), st.floats(0.1, 10))
def test_a_quotient_holds_every_value(
    first: tuple[Span, float], low: float, high: float
) -> None:
    a, x = first
    below = Span(min(low, high), max(low, high))
    assert inside(a / below, x / low)
    assert inside(a / -below, x / -high)


@given(spans(), st.integers(0, 5))
def test_a_power_holds_every_value(first: tuple[Span, float], power: int) -> None:
    a, x = first
    found = a**power
    assert inside(found, x**power) or math.isclose(x**power, found.high)


# Worked by hand from the definition of interval arithmetic.
@pytest.mark.parametrize(
    ("found", "low", "high"),
    [
        (Span(1, 2) - Span(1, 2), -1, 1),
        (Span(-2, 3) * Span(-1, 4), -8, 12),
        (Span(1, 2) / Span(4, 8), 0.125, 0.5),
        (Span(-2, 3) ** 2, 0, 9),
        (Span(2, 4) ** -1, 0.25, 0.5),
        (Span(-3, -2) ** 3, -27, -8),
        (Span(-2, 3) ** 0, 1, 1),
        (Span.around(5.0, 0.5).widened(0.25), 4.25, 5.75),
        (mapped(math.sqrt, Span(4, 9)), 2, 3),
    ],
)
def test_a_span_is_worked_out_as_by_hand(found: Span, low: float, high: float) -> None:
    assert (found.low, found.high) == (low, high)


@pytest.mark.parametrize(
    "nowhere",
    [
        Span(1, 2) / Span(-1, 1),
        Span(1, 2) / Span(0, 1),
        mapped(math.log10, Span(0, 1)),
        mapped(math.sqrt, Span(-1, 1)),
        Span(-1, 1) ** -2,
        lowest(Span(1, 2), Span(math.nan, math.nan)),
        highest(Span(math.nan, math.nan), Span(1, 2)),
        Span(math.nan, math.nan) * Span(1, 2),
    ],
)
def test_what_can_have_no_value_holds_none(nowhere: Span) -> None:
    assert math.isnan(nowhere.low)
    assert math.isnan(nowhere.high)
    assert not nowhere.holds(1.0)


def test_a_span_holds_its_ends_and_what_floats_round_off() -> None:
    span = Span(0.1 + 0.2, 1.0)
    assert span.holds(0.3)
    assert span.holds(1.0)
    assert not span.holds(0.2999)


@pytest.mark.parametrize(
    ("other", "meets"),
    [
        (Span(2, 3), True),
        (Span(2.1, 3), False),
        (Span(0, 5), True),
        (Span(1.2, 1.3), True),
        (Span(-1, 0.9), False),
        (Span(math.nan, math.nan), False),
    ],
)
def test_spans_meet_where_they_share_a_value(other: Span, *, meets: bool) -> None:
    span = Span(1, 2)
    assert span.meets(other) is meets
    assert other.meets(span) is meets
