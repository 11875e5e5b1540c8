"""Molar masses against print, and against RDKit; sources stand in the data file."""

from __future__ import annotations

import tomllib
from collections import Counter
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from rdkit import Chem

from workbook.matter.elements import load_weights
from workbook.matter.formula import molar_mass, read_formula

DATA = tomllib.loads(
    (Path(__file__).parents[1] / "data" / "published_molar_masses.toml").read_text(
        "utf-8"
    )
)
WEIGHTS = load_weights("2021 abridged")

#: Relative. Libraries carry weights of different years: up to 117 millionths apart for
#: zinc chloride, while one hydrogen in triolein is 1100 millionths.
SECOND_OPINION = Decimal("1.5e-4")


def cases(kind: str) -> list[Any]:
    return [pytest.param(row, id=row["id"]) for row in DATA[kind]]


def mass_of(formula: str) -> Decimal:
    return molar_mass(read_formula(formula), WEIGHTS)


@pytest.mark.parametrize("row", cases("molar_mass"))
def test_a_molar_mass_is_the_published_one(row: dict[str, str]) -> None:
    difference = abs(mass_of(row["formula"]) - Decimal(row["expected"]))
    assert difference <= Decimal(row["allow"])


@pytest.mark.parametrize("row", cases("share"))
def test_a_share_of_the_mass_is_the_published_one(row: dict[str, str]) -> None:
    percent = 100 * mass_of(row["piece"]) / mass_of(row["formula"])
    assert abs(percent - Decimal(row["expected"])) <= Decimal(row["allow"])


@pytest.mark.parametrize("row", cases("amount"))
def test_a_mass_is_the_published_amount(row: dict[str, str]) -> None:
    amount = Decimal(row["mass_g"]) / mass_of(row["formula"])
    assert abs(amount - Decimal(row["amount_mol"])) <= Decimal(row["allow"])


@pytest.mark.parametrize(("symbol", "weight"), DATA["atomic_weights"].items())
def test_an_atomic_weight_is_the_published_one(symbol: str, weight: str) -> None:
    assert str(WEIGHTS.weight(symbol)) == weight


def test_a_fat_weighs_what_its_parts_weigh_less_water() -> None:
    # B-16: three oleic acids and glycerol, less three waters, with CIAAW 2021 weights.
    parts = 3 * mass_of("C18H34O2") + mass_of("C3H8O3") - 3 * mass_of("H2O")
    assert mass_of("C57H104O6") == parts == Decimal("885.453")


def test_a_soap_weighs_what_its_acid_weighs_with_sodium_for_hydrogen() -> None:
    # B-16: oleic acid 282.468, H 1.008, Na 22.990, with CIAAW 2021 weights.
    soap = mass_of("C18H34O2") - mass_of("H") + mass_of("Na")
    assert mass_of("C18H33NaO2") == soap == Decimal("304.450")


def test_a_soap_follows_from_the_printed_molar_mass_of_its_fat() -> None:
    # Common practice, no source: a fat sold as 879.44 g/mol is trilinolein; its soap is
    # a third of what is left without C3H5, with a sodium. 879.44 is 0.035 over 879.405.
    soap = (Decimal("879.44") - mass_of("C3H5")) / 3 + mass_of("Na")
    assert abs(soap - mass_of("C18H31NaO2")) <= Decimal("0.012")


@pytest.mark.parametrize("row", cases("structure"))
def test_rdkit_counts_the_same_atoms_and_charge(row: dict[str, str]) -> None:
    molecule = Chem.AddHs(Chem.MolFromSmiles(row["smiles"]))
    counted = Counter(atom.GetSymbol() for atom in molecule.GetAtoms())
    formula = read_formula(row["formula"])
    assert formula.atoms == counted
    assert formula.charge == Chem.GetFormalCharge(molecule)


@pytest.mark.parametrize("row", cases("structure"))
def test_rdkit_weighs_the_same(row: dict[str, str]) -> None:
    molecule = Chem.AddHs(Chem.MolFromSmiles(row["smiles"]))
    weighed = sum(atom.GetMass() for atom in molecule.GetAtoms())
    difference = abs(mass_of(row["formula"]) - Decimal(weighed))
    assert difference <= SECOND_OPINION * Decimal(weighed)


@pytest.mark.parametrize("symbol", sorted(WEIGHTS.weights))
def test_rdkit_knows_nearly_the_same_atomic_weight(symbol: str) -> None:
    # Weights are revised now and then; the largest revision since RDKit's own table is
    # that of germanium, 72.61 to 72.630, below three parts in ten thousand.
    other = Decimal(Chem.GetPeriodicTable().GetAtomicWeight(symbol))
    assert abs(WEIGHTS.weight(symbol) - other) <= Decimal("3e-4") * other
