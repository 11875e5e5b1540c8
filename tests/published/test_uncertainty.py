"""
Spans against first-order propagation, by published examples and a reference library.

A span is worst-case: it adds up what each input can do, and first-order propagation
adds the squares. So the half-width of a span is the sum of the contributions, never
less than the combined standard uncertainty, and the published interval lies inside.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from uncertainties import UFloat, ufloat

from workbook.graph.compute import compute_span
from workbook.graph.span import Span
from workbook.judge.carried import Carried, carry
from workbook.measure.figures import Known
from workbook.relation.reader import read_relation
from workbook.relation.tree import Algebra, evaluate

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph


@dataclass(frozen=True)
class Published:
    """A worked example: inputs with standard uncertainties, and what is printed."""

    relation: str
    inputs: Mapping[str, tuple[float, float]]
    value: float
    value_within: float
    u: float
    u_within: float


EXAMPLES = {
    # EURACHEM/CITAC guide Quantifying Uncertainty in Analytical Measurement (QUAM),
    # example A1: a calibration standard of cadmium [mg/L].
    "standard solution": Published(
        "1000 * mass * purity / volume",
        {"mass": (100.28, 0.05), "purity": (0.9999, 0.000058), "volume": (100.0, 0.07)},
        *(1002.7, 0.1, 0.9, 0.05),
    ),
    # QUAM, example A2: sodium hydroxide standardised with potassium hydrogen phthalate
    # [mol/L].
    "standardised lye": Published(
        "1000 * mass * purity * again / (molar * volume)",
        {
            "mass": (0.3888, 0.00013),
            "purity": (1.0, 0.00029),
            "again": (1.0, 0.0005),
            "molar": (204.2212, 0.0038),
            "volume": (18.64, 0.013),
        },
        *(0.10214, 0.00001, 0.00010, 0.000005),
    ),
    # Two deliveries of a 10-mL pipette, from a textbook of quantitative analysis [mL].
    "two deliveries": Published(
        "first + second",
        {"first": (9.992, 0.006), "second": (9.992, 0.006)},
        *(19.984, 0.0005, 0.0085, 0.00005),
    ),
    # Guide to the Expression of Uncertainty in Measurement (GUM, JCGM 100:2008), H.1,
    # read second-hand: an end gauge [nm].
    "end gauge": Published(
        "standard + found - standard * (alike * warm + expands * apart)",
        {
            "standard": (50_000_623, 25),
            "found": (215, 9.7),
            "alike": (0, 0.58e-6),
            "warm": (-0.1, 0.41),
            "expands": (11.5e-6, 1.2e-6),
            "apart": (0, 0.029),
        },
        *(50_000_838, 0.5, 31.7, 0.1),
    ),
}


def propagate(example: Published) -> UFloat:
    """Return what the reference library makes of an example."""
    values = {name: ufloat(*each) for name, each in example.inputs.items()}
    algebra: Algebra[UFloat] = Algebra(
        lambda node: float(node.value), values.__getitem__, _no_call
    )
    return evaluate(read_relation(example.relation), algebra)


def _no_call(name: str, _: tuple[object, ...]) -> UFloat:
    raise KeyError(name)


def span_of(graph: Graph, example: Published, times: float = 1.0) -> Span:
    spans = {
        name: Span.around(value, times * u)
        for name, (value, u) in example.inputs.items()
    }
    return compute_span(graph, read_relation(example.relation), spans)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_library_gives_what_is_published(name: str) -> None:
    example, found = EXAMPLES[name], propagate(EXAMPLES[name])
    assert found.nominal_value == pytest.approx(example.value, abs=example.value_within)
    assert found.std_dev == pytest.approx(example.u, abs=example.u_within)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_span_holds_the_published_interval(graph: Graph, name: str) -> None:
    example, span = EXAMPLES[name], span_of(graph, EXAMPLES[name])
    # As far as the printed digits tell.
    assert span.low <= example.value - example.u + example.value_within
    assert span.high >= example.value + example.u - example.value_within


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_span_adds_what_first_order_propagation_squares(
    graph: Graph, name: str
) -> None:
    # A hundredth of the uncertainties, so that nothing beyond the first order is left.
    span, found = span_of(graph, EXAMPLES[name], 0.01), propagate(EXAMPLES[name])
    half = (span.high - span.low) / 2 / 0.01
    parts = [abs(part) for part in found.error_components().values()]
    assert half == pytest.approx(sum(parts), rel=0.02)
    assert found.std_dev <= half * 1.001
    assert half <= math.sqrt(len(parts)) * found.std_dev * 1.02


@pytest.mark.parametrize("name", ["standard solution", "standardised lye"])
def test_the_judges_band_holds_it_too_and_is_wider_by_rounding(
    graph: Graph, name: str
) -> None:
    example, narrow = EXAMPLES[name], span_of(graph, EXAMPLES[name])
    values = {
        key: Carried(Span.around(value, u), Known(Decimal(repr(value)), _last(u)))
        for key, (value, u) in example.inputs.items()
    }
    span = carry(graph, read_relation(example.relation), values).span
    assert span.low <= narrow.low
    assert narrow.high <= span.high
    assert span.low < example.value - example.u
    assert example.value + example.u < span.high


def _last(u: float) -> int:
    """Return the place of the first digit of an uncertainty."""
    return math.floor(math.log10(u))
