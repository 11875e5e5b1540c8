"""A constant of another substance; shares from the notes on the trade."""

from __future__ import annotations

import pytest

from tests.support.slip import REFERENCE, build, slips, times_right
from workbook.graph.slip import SlipKind
from workbook.relation.tree import names


def test_the_density_of_another_liquid_is_off_as_in_the_notes() -> None:
    # Notes D03: the density of the lye for that of the oil, × 1.332.
    found = times_right(build(), "oil_mass", SlipKind.DENSITY_OF_ANOTHER)
    assert found == [pytest.approx(1.332, abs=5e-4)]


def test_the_molar_mass_of_the_soap_for_the_oil_is_off_as_in_the_notes() -> None:
    # Notes M01: × 2.908.
    found = times_right(build(), "oil_amount", SlipKind.MOLAR_MASS_OF_ANOTHER)
    assert any(each == pytest.approx(2.908, abs=5e-4) for each in found)


def test_a_molar_mass_is_taken_from_the_same_equation_only() -> None:
    wrong = slips(build(), "oil_amount", SlipKind.MOLAR_MASS_OF_ANOTHER)
    used = {name for slip in wrong for name in names(slip.relation)} - {"oil_mass"}
    assert used == {"lye.molar_mass", "soap.molar_mass", "glycerol.molar_mass"}


def test_the_pure_substance_can_lend_its_density_to_its_solution() -> None:
    pure = 'density = { value = "2.13 g/mL", source = "invented" }\n'
    formula = 'formula = "NaOH"\n'
    graph = build(REFERENCE.replace(formula, formula + pure, 1))
    found = times_right(graph, "lye_amount", SlipKind.DENSITY_OF_SOLUTE)
    # 2.13 for 1.219 g/mL.
    assert found == [pytest.approx(2.13 / 1.219)]


def test_another_solution_can_lend_its_concentration() -> None:
    salt = 'formula = "Na2SO4"\n'
    bottle = 'solution = { name = "b", molarity = "0.50 mol/L", source = "invented" }\n'
    graph = build(REFERENCE.replace(salt, salt + bottle, 1))
    found = times_right(graph, "acid_volume", SlipKind.CONCENTRATION_OF_ANOTHER)
    assert found == [pytest.approx(2.0)]
