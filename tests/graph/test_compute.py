"""Relations worked out with floats and with spans."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from workbook.graph.compute import compute, compute_span
from workbook.graph.span import Span
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("x + y * 2", 11.0),
        ("(x - y)^2 / 4", 0.25),
        ("-x", -3.0),
        ("max(x, y) - min(x, y)", 1.0),
        ("sqrt(x + 1) + log10(1000)", 5.0),
        ("exp10(1 - x)", 0.01),
        ("x * ratio(lye, oil)", 9.0),
    ],
)
def test_a_relation_comes_to_what_it_says(
    graph: Graph, text: str, expected: float
) -> None:
    values = {"x": 3.0, "y": 4.0}
    assert compute(graph, read_relation(text), values) == pytest.approx(expected)


@pytest.mark.parametrize(
    "text",
    ["1 / (x - x)", "log10(-x)", "sqrt(-x)", "log10(x - x)", "exp10(1e5)"],
)
def test_what_has_no_value_is_no_number(graph: Graph, text: str) -> None:
    assert math.isnan(compute(graph, read_relation(text), {"x": 3.0}))


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("x * y", 2.9 * 3.9, 3.1 * 4.1),
        ("x / y", 2.9 / 4.1, 3.1 / 3.9),
        ("x - y", -1.2, -0.8),
        ("max(x, y) * ratio(soap, oil)", 3 * 3.9, 3 * 4.1),
        ("sqrt(x)", math.sqrt(2.9), math.sqrt(3.1)),
    ],
)
def test_a_span_reaches_from_the_worst_to_the_worst_case(
    graph: Graph, text: str, low: float, high: float
) -> None:
    values = {"x": Span.around(3.0, 0.1), "y": Span.around(4.0, 0.1)}
    found = compute_span(graph, read_relation(text), values)
    assert (found.low, found.high) == pytest.approx((low, high))
