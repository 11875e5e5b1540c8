"""Quantities in their own unit and in base units, and ratios of coefficients."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.support.exercise import compile_lab
from workbook.graph.quantity import Origin, Quantity
from workbook.measure.units import read_unit

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def in_unit(symbol: str) -> Quantity:
    return Quantity(name="x", origin=Origin.DERIVED, unit=read_unit(symbol))


# By definition: 1 L = 1000 cm³, 1 kg = 1000 g, 0 °C = 273.15 K (BIPM, SI Brochure).
@pytest.mark.parametrize(
    ("unit", "value", "base"),
    [
        ("L", 0.25, 250.0),
        ("kg", 1.5, 1500.0),
        ("mmol", 12.0, 0.012),
        ("g/L", 5.0, 0.005),
        ("°C", 25.0, 298.15),
        ("%", 75.0, 75.0),
    ],
)
def test_a_value_goes_to_base_units_and_back(
    unit: str, value: float, base: float
) -> None:
    quantity = in_unit(unit)
    assert quantity.to_base(value) == pytest.approx(base, rel=1e-12)
    assert quantity.from_base(base) == pytest.approx(value, rel=1e-12)


def test_a_whole_column_goes_at_once() -> None:
    column = in_unit("kg").to_base(np.array([1.0, 2.0]))
    assert column.tolist() == [1000.0, 2000.0]


def test_coefficients_come_from_the_equation_that_holds_both(graph: Graph) -> None:
    # The base stands in both reactions of the lab: oil + 3 lye, and acid + 3 lye.
    assert graph.ratio("lye", "oil") == 3
    assert graph.ratio("acid", "lye") == Fraction(1, 3)


def test_a_species_has_the_ratio_one_to_itself_in_two_equations(graph: Graph) -> None:
    assert graph.ratio("lye", "lye") == 1


def test_species_that_never_meet_have_no_equation(graph: Graph) -> None:
    with pytest.raises(LookupError, match=r"ratio\(oil, citrate\): 0 equations"):
        graph.equation_of("oil", "citrate")


def test_a_ratio_is_that_of_the_reaction_that_it_names() -> None:
    # 2 Al + 2 KOH + 4 H2SO4 + 22 H2O -> 2 alum + 3 H2; 2 KOH + H2SO4 -> K2SO4 + 2 H2O.
    graph = compile_lab("potash-alum").graph
    assert graph.ratio("acid", "base", "reaction") == 2
    assert graph.ratio("acid", "base", "spare_base") == Fraction(1, 2)
    with pytest.raises(LookupError, match="2 equations hold both"):
        graph.ratio("acid", "base")
