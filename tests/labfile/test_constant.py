"""The constants that a species brings, and what each of them has to measure."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.constant import (
    constant_names,
    constants_measure,
    written_constants,
)

BOTTLE = 'solution = { name = "dilute hydrochloric acid", molarity = "2.00 mol/L"'


def test_a_species_brings_its_molar_mass_and_what_is_written() -> None:
    names = constant_names(read_tables().species)
    assert {"chalk.molar_mass", "chalk.density", "acid.molarity"} <= names
    assert "acid.density" not in names


def test_a_species_without_a_formula_brings_no_molar_mass() -> None:
    names = constant_names(read_tables(('formula = "CH3COOH"', "")).species)
    assert "vinegar.molar_mass" not in names


def test_a_bottle_by_mass_brings_its_fraction_and_its_density() -> None:
    by_mass = BOTTLE.replace(
        'molarity = "2.00 mol/L"', 'mass_fraction = "7.0 %", density = "1.03 g/mL"'
    )
    acid = read_tables((BOTTLE, by_mass)).species["acid"]
    texts = {suffix: each.text for suffix, each in written_constants(acid).items()}
    assert texts == {"mass_fraction": "7.0 %", "solution_density": "1.03 g/mL"}


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ('molarity = "2.00 g/L"', "g/L measures density; concentration is wanted"),
        ('mass_per_volume = "73 g"', "g measures mass; density is wanted"),
        (
            'density = "1.03 g", mass_fraction = "7.0 %"',
            "g measures mass; density is wanted",
        ),
        (
            'density = "1.03 g/mL", mass_fraction = "0.07 g/g"',
            "a percentage is wanted",
        ),
        ('molarity = "-2.00 mol/L"', "'-2.00 mol/L' is not above zero"),
    ],
)
def test_a_constant_measures_what_its_name_says(written: str, sentence: str) -> None:
    bottle = BOTTLE.replace('molarity = "2.00 mol/L"', written)
    ((place, said),) = constants_measure(read_tables((BOTTLE, bottle)))
    assert place[:3] == ("species", "acid", "solution")
    assert sentence in said


@pytest.mark.parametrize("unit", ["kg/m3", "g/cm³", "mg/mL"])
def test_a_density_may_stand_in_any_unit_of_density(unit: str) -> None:
    assert list(constants_measure(read_tables(("2.71 g/mL", f"2.71 {unit}")))) == []


GAS = 'name = "carbon dioxide"'
AT_ROOM = 'molar_volume = { value = "24.0 L/mol", at = "20 °C", source = "invented" }'


def test_a_gas_brings_the_volume_of_a_mole() -> None:
    file = read_tables((GAS, f"{GAS}\n{AT_ROOM}"))
    assert "gas.molar_volume" in constant_names(file.species)
    assert list(constants_measure(file)) == []


def test_a_molar_volume_is_no_volume() -> None:
    wrong = AT_ROOM.replace("L/mol", "L")
    ((place, said),) = constants_measure(read_tables((GAS, f"{GAS}\n{wrong}")))
    assert place == ("species", "gas", "molar_volume", "value")
    assert "L measures volume; molar volume is wanted" in said
