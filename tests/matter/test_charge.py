"""Telling a charge from a count."""

from __future__ import annotations

import pytest

from workbook.errors import FormulaError
from workbook.matter.charge import split_charge


@pytest.mark.parametrize(
    ("text", "rest", "charge"),
    [
        ("NaCl", "NaCl", 0),
        ("Na+", "Na", 1),
        ("Cl-", "Cl", -1),
        ("Cl−", "Cl", -1),
        ("Na^+", "Na", 1),
        ("SO4^2-", "SO4", -2),
        ("SO4 ^2-", "SO4", -2),
        ("SO4^-2", "SO4", -2),
        ("SO4 2-", "SO4", -2),
        ("SO4²⁻", "SO4", -2),
        ("SO₄²⁻", "SO₄", -2),
        ("SO₄2-", "SO₄", -2),
        ("NH4+", "NH4", 1),
        ("NH₄⁺", "NH₄", 1),
        ("NO3-", "NO3", -1),
        ("MnO4⁻", "MnO4", -1),
        ("[Cu(NH3)4]2+", "[Cu(NH3)4]", 2),
        ("[Ag(NH3)2]+", "[Ag(NH3)2]", 1),
        ("Fe³⁺", "Fe", 3),
        ("Ca(OH)+", "Ca(OH)", 1),
        ("H2W12O42^10-", "H2W12O42", -10),
    ],
)
def test_a_certain_charge_is_split_off(text: str, rest: str, charge: int) -> None:
    assert split_charge(text) == (rest, charge)


@pytest.mark.parametrize(
    ("text", "counted", "charged"),
    [
        ("SO42-", "SO42^-", "SO4^2-"),
        ("PO43−", "PO43^-", "PO4^3-"),
        ("Fe3+", "Fe3^+", "Fe^3+"),
        ("I3-", "I3^-", "I^3-"),
        ("O2-", "O2^-", "O^2-"),
        ("NO2-", "NO2^-", "NO^2-"),
        ("FeSCN2+", "FeSCN2^+", "FeSCN^2+"),
        ("Fe(OH)2+", "Fe(OH)2^+", "Fe(OH)^2+"),
        ("[Fe(CN)6]34-", "[Fe(CN)6]34^-", "[Fe(CN)6]3^4-"),
    ],
)
def test_a_doubtful_charge_is_refused_with_both_spellings(
    text: str, counted: str, charged: str
) -> None:
    with pytest.raises(FormulaError) as caught:
        split_charge(text)
    assert f"Write '{counted}' or '{charged}'" in caught.value.reason


@pytest.mark.parametrize("text", ["SO42^-", "SO4^2-", "FeSCN2^+", "FeSCN^2+"])
def test_what_the_refusal_proposes_is_read(text: str) -> None:
    rest, charge = split_charge(text)
    assert f"{rest}^" in text
    assert charge


def test_a_doubt_is_placed_at_the_digits() -> None:
    with pytest.raises(FormulaError) as caught:
        split_charge("SO42-")
    assert caught.value.position == 2


def test_a_charge_of_nothing_is_refused() -> None:
    with pytest.raises(FormulaError, match="its charge is 0"):
        split_charge("Na^0+")
