"""The factors of a chain step: all of one equation, whatever the step needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, WEIGHTS, edit, make_lab
from workbook.labfile.offer import offers

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Ask, Lab
    from workbook.wire.sheet import Factor


def ask_of(lab: Lab, name: str) -> Ask:
    return next(ask for ask in lab.public.asks if ask.id == name)


def offered(lab: Lab, name: str) -> dict[str, Factor]:
    return {f.id: f for f in offers(lab.public, ask_of(lab, name), WEIGHTS)}


@pytest.fixture(scope="module")
def oil(lab: Lab) -> dict[str, Factor]:
    """Return the factors for the mass of oil."""
    return offered(lab, "oil_mass")


def test_a_density_is_a_mass_over_a_volume(oil: dict[str, Factor]) -> None:
    factor = oil["oil.density"]
    assert (factor.top, factor.top_unit) == ("0.911", "g")
    assert (factor.bottom, factor.bottom_unit) == ("1", "mL")
    assert factor.top_of == factor.bottom_of == "olive oil"


def test_a_molar_mass_is_printed_to_two_decimals(oil: dict[str, Factor]) -> None:
    # Triolein, C57H104O6: 885.453 g/mol with the abridged weights of CIAAW 2021.
    factor = oil["oil.molar_mass"]
    assert (factor.top, factor.top_unit, factor.bottom_unit) == ("885.45", "g", "mol")


def test_the_number_of_a_molar_mass_that_is_asked_stays_empty(
    oil: dict[str, Factor],
) -> None:
    assert oil["soap.molar_mass"].top == ""


def test_a_percentage_is_grams_in_a_hundred_grams(oil: dict[str, Factor]) -> None:
    factor = oil["lye.mass_fraction"]
    assert (factor.top, factor.bottom) == ("20.0", "100")
    assert factor.top_of == "sodium hydroxide"
    assert factor.bottom_of == "lye, 20.0 % sodium hydroxide"


def test_a_ratio_is_offered_for_every_two_species(oil: dict[str, Factor]) -> None:
    # Four species in oil + 3 lye -> 3 soap + glycerol make six pairs.
    ratios = {name: f for name, f in oil.items() if name.startswith("ratio")}
    assert len(ratios) == 6
    lye = ratios["ratio(lye, oil)"]
    assert (lye.top, lye.top_of, lye.bottom, lye.bottom_of) == (
        "3",
        "sodium hydroxide",
        "1",
        "olive oil",
    )


def test_what_is_offered_does_not_tell_what_is_needed(lab: Lab) -> None:
    names = ("oil_mass", "oil_amount", "soap_amount", "lye_needed")
    lists = [list(offered(lab, name)) for name in names]
    assert all(each == lists[0] for each in lists)


def test_the_second_reaction_brings_its_own_coefficients(tmp_path: Path) -> None:
    # The rinse takes 2 of acetic acid for each chalk; the main reaction none.
    relation = '"chalk_mass / chalk.molar_mass"'
    text = edit(
        CHALK, (f'of = "chalk"\nis = {relation}', f'of = "vinegar"\nis = {relation}')
    )
    factors = offered(make_lab(tmp_path, text), "chalk_amount")
    assert factors["ratio(vinegar, chalk)"].top == "2"
    assert "ratio(acid, chalk)" not in factors


def test_a_strength_in_moles_is_moles_of_solute_in_litres_of_bottle(
    tmp_path: Path,
) -> None:
    factor = offered(make_lab(tmp_path), "chalk_amount")["acid.molarity"]
    assert (factor.top, factor.top_unit, factor.bottom_unit) == ("2.00", "mol", "L")
    assert factor.top_of == "hydrogen chloride"
    assert factor.bottom_of == "dilute hydrochloric acid"


def test_a_molar_volume_is_litres_over_a_mole(tmp_path: Path) -> None:
    gas = 'name = "carbon dioxide"'
    row = 'molar_volume = { value = "24.0 L/mol", at = "20 °C", source = "invented" }'
    lab = make_lab(tmp_path, edit(CHALK, (gas, f"{gas}\n{row}")))
    factor = offered(lab, "salt_yield")["gas.molar_volume"]
    assert factor.label == "molar volume of carbon dioxide"
    assert (factor.top, factor.top_unit) == ("24.0", "L")
    assert (factor.bottom, factor.bottom_unit) == ("1", "mol")


def test_a_bottle_with_two_substances_says_which_of_them_is_meant(
    tmp_path: Path,
) -> None:
    vinegar = 'formula = "CH3COOH"'
    row = vinegar + (
        '\nsolution = { name = "dilute hydrochloric acid", molarity = "0.50 mol/L", '
        'source = "its label" }'
    )
    lab = make_lab(tmp_path, edit(CHALK, (vinegar, row)))
    label = offered(lab, "salt_yield")["acid.molarity"].label
    assert label == "concentration of hydrogen chloride in dilute hydrochloric acid"
