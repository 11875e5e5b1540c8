"""The constants of a graph, with the spread of honest choices."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.support.lab import WEIGHTS, read_tables
from workbook.graph.constant import make_constants, molar_mass_constant
from workbook.graph.quantity import Origin, Quantity
from workbook.measure.units import ONE

BOTTLE = 'molarity = "2.00 mol/L"'


def constants(*edits: tuple[str, str]) -> dict[str, Quantity]:
    return make_constants(read_tables(*edits).species, WEIGHTS)


def test_a_written_constant_keeps_its_value_unit_and_figures() -> None:
    density = constants()["chalk.density"]
    assert density.constant is not None
    assert (str(density.constant.value), density.constant.figures) == ("2.71", 3)
    assert density.unit.symbol == "g/mL"
    assert density.origin is Origin.CONSTANT


def test_a_mass_fraction_acts_as_a_fraction_with_its_figures() -> None:
    by_mass = (BOTTLE, 'mass_fraction = "20.0 %", density = "1.10 g/mL"')
    share = constants(by_mass)["acid.mass_fraction"]
    assert share.unit == ONE
    assert share.constant is not None
    assert share.constant.value == Decimal("0.2")
    assert share.constant.figures == 3


# Sums of the abridged weights of CIAAW 2021: triolein, sodium oleate.
@pytest.mark.parametrize(
    ("formula", "mass"), [("C57H104O6", "885.453"), ("C18H33NaO2", "304.450")]
)
def test_a_molar_mass_is_that_of_its_table(formula: str, mass: str) -> None:
    constant = molar_mass_constant("m", formula, WEIGHTS).constant
    assert constant is not None
    assert constant.value == Decimal(mass)


def test_the_spread_covers_the_other_table_and_printing() -> None:
    # Triolein with two decimals: 57 x 12.01 + 104 x 1.01 + 6 x 16.00 = 885.61 g/mol;
    # 0.157 from 885.453, and half a hundredth for printing.
    spread = molar_mass_constant("m", "C57H104O6", WEIGHTS).spread
    assert spread == pytest.approx(0.162)


def test_the_spread_does_not_reach_a_lost_hydrogen() -> None:
    # design rule: a lost hydrogen moves a soap's molar mass by 0.33 %.
    soap = molar_mass_constant("m", "C18H33NaO2", WEIGHTS)
    assert soap.spread < 1.008


def test_a_species_without_a_formula_brings_only_what_is_written() -> None:
    found = constants(('formula = "CaCO3"', ""))
    assert "chalk.density" in found
    assert "chalk.molar_mass" not in found
