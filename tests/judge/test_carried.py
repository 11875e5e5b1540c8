"""Rounding on the way: how far a result can move, each bound worked out by hand."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from workbook.graph.span import Span
from workbook.judge.carried import Carried, carry, exact, half_place
from workbook.measure.figures import Known
from workbook.measure.rounding import Ties
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def point(text: str) -> Carried:
    """Return a value that is known to its last written digit."""
    value = Decimal(text)
    place = value.as_tuple().exponent
    assert isinstance(place, int)
    return Carried(Span.around(float(value)), Known(value, place))


def work_out(graph: Graph, relation: str, **texts: str) -> Carried:
    values = {name: point(text) for name, text in texts.items()}
    return carry(graph, read_relation(relation), values)


def ends(carried: Carried) -> tuple[float, float]:
    return carried.span.low, carried.span.high


def test_a_single_operation_leaves_nothing_to_round(graph: Graph) -> None:
    found = work_out(graph, "a * b", a="12.5", b="0.911")
    assert ends(found) == pytest.approx((11.3875, 11.3875))
    assert found.known.figures == 3


def test_an_intermediate_product_may_be_rounded_to_its_figures(graph: Graph) -> None:
    """11.5 × 1.219 = 14.0185 has three figures: 13.9685 to 14.0685, × 0.200."""
    found = work_out(graph, "a * b * c", a="11.5", b="1.219", c="0.200")
    assert ends(found) == pytest.approx((2.79370, 2.81370))


def test_an_intermediate_sum_may_be_rounded_to_its_places(graph: Graph) -> None:
    """885.45 - 41.07 = 844.38 has two decimals: 844.375 to 844.385, / 3."""
    found = work_out(graph, "(a - b) / 3", a="885.45", b="41.07")
    assert ends(found) == pytest.approx((844.375 / 3, 844.385 / 3))
    assert found.known.figures == 5


def test_every_intermediate_adds_its_own_rounding(graph: Graph) -> None:
    """
    2.00 × 3.00 = 6.00 ± 0.005, and × 4.00 = 24.0 ± 0.02 ± 0.05, and × 5.00.

    Below: (5.995 × 4 - 0.05) × 5 = 119.65; above: (6.005 × 4 + 0.05) × 5 = 120.35.
    """
    found = work_out(graph, "a * b * c * d", a="2.00", b="3.00", c="4.00", d="5.00")
    assert ends(found) == pytest.approx((119.65, 120.35))


def test_a_counted_number_is_not_rounded(graph: Graph) -> None:
    """ratio(soap, oil) is 3, of no limited figures."""
    found = work_out(graph, "a * ratio(soap, oil)", a="0.0129")
    assert ends(found) == pytest.approx((0.0387, 0.0387))
    assert found.known.figures == 3


@pytest.mark.parametrize(
    ("relation", "expected"),
    [
        # ab = 1.50 ± 0.005, cd = 2.50 ± 0.005.
        ("min(a * b, c * d)", (1.495, 1.505)),
        ("max(a * b, c * d)", (2.495, 2.505)),
        ("sqrt(a * b)", (1.495**0.5, 1.505**0.5)),
        ("(a * b)^2", (1.495**2, 1.505**2)),
        ("-(a * b)", (-1.5, -1.5)),
        # 1.50 - 1.00 = 0.50, good to hundredths.
        ("exp10(b - a)", (10**0.495, 10**0.505)),
        ("log10(100 * a)", (2.0, 2.0)),
    ],
)
def test_functions_and_powers_carry_the_span(
    graph: Graph, relation: str, expected: tuple[float, float]
) -> None:
    found = work_out(graph, relation, a="1.00", b="1.50", c="1.00", d="2.50")
    if relation.startswith("log10"):
        # 100 × 1.00 = 100 ± 0.5, whose logarithm lies between 1.9978 and 2.0022.
        expected = (1.997823, 2.002166)
    assert ends(found) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("relation", ["a / (b - b)", "log10(0 - a)", "sqrt(0 - a)"])
def test_what_has_no_value_is_an_arithmetic_error(graph: Graph, relation: str) -> None:
    with pytest.raises(ArithmeticError):
        work_out(graph, relation, a="1.00", b="2.00")


def test_half_a_place_follows_the_last_digit() -> None:
    assert half_place(Known(Decimal("11.4"), -1)) == pytest.approx(0.05)
    assert half_place(exact(Fraction(1, 3))) == 0


def test_rounding_is_allowed_for_once() -> None:
    result = Carried(Span.around(2.0), Known(Decimal("2.0"), -1), is_result=True)
    once = result.rounded()
    assert ends(once) == pytest.approx((1.95, 2.05))
    assert once.rounded() == once


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
    found = work_out(graph, text, **numbers).known
    assert str(found.round(Ties.EVEN)) == expected


def test_a_coefficient_and_a_written_number_limit_no_figures(graph: Graph) -> None:
    found = work_out(graph, "100 * n * ratio(soap, oil)", n="0.0126").known
    assert found.figures == 3
    assert found.value == Decimal("3.78")


def test_figures_pass_through_functions(graph: Graph) -> None:
    # pH of 0.0333 mol/L is 1.478: as many decimals as figures (OpenStax, section 14.2).
    found = work_out(graph, "-log10(min(c, d))", c="0.0333", d="0.5").known
    assert str(found.round(Ties.EVEN)) == "1.478"


def test_a_figure_less_division_is_an_error_of_arithmetic(graph: Graph) -> None:
    with pytest.raises(ArithmeticError):
        work_out(graph, "1 / x", x="0")
