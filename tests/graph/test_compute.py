"""Relations worked out with floats, spans and figures, beside worked examples."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from workbook.graph.compute import compute, compute_known, compute_span
from workbook.graph.span import Span
from workbook.measure.figures import Known
from workbook.measure.rounding import Ties
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def known(text: str) -> Known:
    """Return a measured number as it is written."""
    value = Decimal(text)
    exponent = value.as_tuple().exponent
    return Known(value, exponent if isinstance(exponent, int) else None)


# OpenStax, Chemistry 2e, section 1.5, examples 1.6 and 1.7 with their checks (read).
@pytest.mark.parametrize(
    ("text", "numbers", "expected"),
    [
        ("a * b * c", {"a": "13.44", "b": "5.920", "c": "2.54"}, "202"),
        ("m / v", {"m": "31.1415", "v": "30.13"}, "1.034"),
        (
            "m / (after - before)",
            {"m": "69.658", "after": "22.4", "before": "13.5"},
            "7.8",
        ),
    ],
)
def test_figures_are_those_of_the_worked_example(
    graph: Graph, text: str, numbers: dict[str, str], expected: str
) -> None:
    values = {name: known(number) for name, number in numbers.items()}
    found = compute_known(graph, read_relation(text), values)
    assert str(found.round(Ties.EVEN)) == expected


def test_a_coefficient_and_a_written_number_limit_no_figures(graph: Graph) -> None:
    relation = read_relation("100 * n * ratio(soap, oil)")
    found = compute_known(graph, relation, {"n": known("0.0126")})
    assert found.figures == 3
    assert found.value == Decimal("3.78")


def test_figures_pass_through_functions(graph: Graph) -> None:
    # pH of 0.0333 mol/L is 1.478: as many decimals as figures (OpenStax, section 14.2).
    values = {"c": known("0.0333"), "d": known("0.5")}
    found = compute_known(graph, read_relation("-log10(min(c, d))"), values)
    assert str(found.round(Ties.EVEN)) == "1.478"


def test_a_figure_less_division_is_an_error_of_arithmetic(graph: Graph) -> None:
    with pytest.raises(ArithmeticError):
        compute_known(graph, read_relation("1 / x"), {"x": known("0")})


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("x + y * 2", 11.0),
        ("(x - y)^2 / 4", 0.25),
        ("-x", -3.0),
        ("max(x, y) - min(x, y)", 1.0),
        ("sqrt(x + 1) + log10(1000)", 5.0),
        ("x * ratio(lye, oil)", 9.0),
    ],
)
def test_a_relation_comes_to_what_it_says(
    graph: Graph, text: str, expected: float
) -> None:
    values = {"x": 3.0, "y": 4.0}
    assert compute(graph, read_relation(text), values) == pytest.approx(expected)


@pytest.mark.parametrize(
    "text", ["1 / (x - x)", "log10(-x)", "sqrt(-x)", "log10(x - x)"]
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
