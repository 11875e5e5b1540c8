"""Substances and reactions in the words that a student reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.lab import CHALK, edit, make_lab
from workbook.labfile.substance import describe_reagents, write_equations

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab


def test_equations_are_printed_with_names(lab: Lab) -> None:
    assert write_equations(lab.public) == (
        "olive oil + 3 sodium hydroxide → 3 sodium oleate + glycerol",
        "citric acid monohydrate + 3 sodium hydroxide → trisodium citrate + 4 water",
    )


def test_a_reagent_shows_its_density_with_its_temperature(lab: Lab) -> None:
    oil = describe_reagents(lab.public)[0]
    assert oil.data == ("density 0.911 g/mL at 20 °C",)
    assert (oil.name, oil.formula) == ("olive oil", "C57H104O6")


def test_a_bottle_shows_its_strength_and_its_density(lab: Lab) -> None:
    lye = describe_reagents(lab.public)[1]
    assert lye.data == (
        "lye, 20.0 % sodium hydroxide: 20.0 % by mass, density 1.219 g/mL",
    )


def test_a_gas_shows_its_molar_volume_with_its_state(tmp_path: Path) -> None:
    gas = 'name = "carbon dioxide"'
    row = 'molar_volume = { value = "24.0 L/mol", at = "20 °C", source = "invented" }'
    lab = make_lab(tmp_path, edit(CHALK, (gas, f"{gas}\n{row}")))
    reagents = {r.id: r for r in describe_reagents(lab.public)}
    assert reagents["gas"].data == ("molar volume 24.0 L/mol at 20 °C",)


def test_hazards_show_code_and_official_text(lab: Lab) -> None:
    lye = describe_reagents(lab.public)[1]
    assert lye.hazards == (
        "H290 May be corrosive to metals",
        "H314 Causes severe skin burns and eye damage",
    )


def test_a_species_without_hazards_or_waste_shows_none(tmp_path: Path) -> None:
    reagents = {r.id: r for r in describe_reagents(make_lab(tmp_path).public)}
    assert (reagents["salt"].hazards, reagents["salt"].waste) == ((), "")
    assert reagents["chalk"].waste == "sand bucket"


def test_strengths_by_amount_and_by_mass_per_volume_are_shown(tmp_path: Path) -> None:
    def data_of_acid(text: str) -> tuple[str, ...]:
        public = make_lab(tmp_path, text).public
        return next(r for r in describe_reagents(public) if r.id == "acid").data

    assert data_of_acid(CHALK) == ("dilute hydrochloric acid: 2.00 mol/L",)
    text = edit(
        CHALK,
        ('molarity = "2.00 mol/L"', 'mass_per_volume = "73 g/L"'),
        ("* acid.molarity", "* acid.mass_per_volume / acid.molar_mass"),
    )
    assert data_of_acid(text) == ("dilute hydrochloric acid: 73 g/L",)
