"""Relations as functions, held against the walker that works them out one by one."""

from __future__ import annotations

import math

import pytest

from tests.support.slip import build, solve
from workbook.graph.compute import compute
from workbook.graph.function import to_function
from workbook.graph.slip import slips_of
from workbook.relation.reader import read_relation


def test_a_function_gives_what_the_walker_gives() -> None:
    graph, values = build(), solve(build())
    for ask in graph.lab.public.asks:
        for slip in slips_of(graph, ask.of) if ask.of in graph.quantities else ():
            expected = compute(graph, slip.relation, values)
            assert to_function(graph, slip.relation)(values) == pytest.approx(
                expected, nan_ok=True
            )


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("-a ^ 2 + b", -3.0),
        ("max(a, b) / min(a, b)", 2.0),
        ("ratio(soap, oil) * a", 6.0),
        ("log10(100) - sqrt(4)", 0.0),
        ("exp10(a - 3 * b)", 0.1),
        ("exp10(1e5)", math.nan),
        ("concordant(0.1, 12.4, 12.46, 13.2)", 12.43),
        ("b / (a - 2)", math.nan),
        ("log10(b - a)", math.nan),
    ],
)
def test_every_sign_and_function_counts(text: str, value: float) -> None:
    function = to_function(build(), read_relation(text))
    # By hand, with a = 2 and b = 1; a power holds more tightly than a minus.
    assert function({"a": 2.0, "b": 1.0}) == pytest.approx(value, nan_ok=True)
