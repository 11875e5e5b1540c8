"""The student in the middle of every range, whom nobody is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.judge.case import Convention
from workbook.solver.middle import middle_case

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph


@pytest.mark.parametrize(
    ("name", "value"),
    [
        # Middles of 11.0 .. 14.5 mL, 10.0 .. 13.0 mL, 10.0 .. 13.0 g, 38.00 .. 52.00 g.
        ("oil_volume", 12.75),
        ("lye_volume", 11.5),
        ("planned_oil", 11.5),
        ("dish", 45.00),
        # 12.8 mL × 0.911 g/mL.
        ("oil_mass", 11.66),
    ],
)
def test_every_draw_is_in_its_middle(
    compiled: CompiledGraph, name: str, value: float
) -> None:
    case = middle_case(compiled, Convention())
    assert case.values[name] == pytest.approx(value, abs=0.051)


def test_every_quantity_has_a_value(compiled: CompiledGraph) -> None:
    case = middle_case(compiled, Convention())
    assert set(case.values) == set(compiled.graph.quantities)
