"""
Steps of a mechanism: what they take and give, and whether all of it is kept.

Balanced examples are the elementary steps of base hydrolysis of ethyl ethanoate, as
any textbook of organic chemistry has them; from memory.
"""

from __future__ import annotations

import pytest

from workbook.errors import EquationError
from workbook.matter.change import print_formula, read_change, write_side
from workbook.matter.formula import read_formula


@pytest.mark.parametrize(
    "text",
    [
        "CH3COOC2H5 + OH^- -> C4H9O3^-",
        "C4H9O3^- -> CH3COOH + C2H5O^-",
        "CH3COOH + C2H5O^- -> CH3COO^- + C2H5OH",
        "Ca(OH)2 -> Ca^2+ + 2 OH^-",
        "2 H2O -> H3O+ + OH-",
    ],
)
def test_a_step_that_keeps_atoms_and_charge_is_balanced(text: str) -> None:
    assert read_change(text).is_balanced


@pytest.mark.parametrize(
    "text",
    [
        "CH3COOH -> CH3COO^-",
        "CH3COOH + OH^- -> CH3COO^- + OH^-",
        "Na -> Na^+",
        "Ca(OH)2 -> Ca^2+ + OH^-",
    ],
)
def test_a_step_that_loses_atoms_or_charge_is_not(text: str) -> None:
    assert not read_change(text).is_balanced


def test_both_sides_are_counted() -> None:
    change = read_change("Ca(OH)2 -> Ca^2+ + 2 OH^-")
    assert change.takes.atoms == {"Ca": 1, "O": 2, "H": 2}
    assert change.takes.charge == 0
    assert change.gives.species == {"Ca²⁺": 1, "OH⁻": 2}
    assert (dict(change.gives.atoms), change.gives.charge) == (
        {"Ca": 1, "O": 2, "H": 2},
        0,
    )


def test_a_step_can_be_said() -> None:
    said = read_change("CH3COOH + 2 OH^- -> H2O").said
    assert said == "C H 3 C O O H plus 2 O H charge minus gives H 2 O"


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("C57H104O6", "C₅₇H₁₀₄O₆"),
        ("Ca(CH3COO)2", "Ca(CH₃COO)₂"),
        ("Ca^2+", "Ca²⁺"),
        ("NH4+", "NH₄⁺"),
        ("[Cu(NH3)4]2+", "[Cu(NH₃)₄]²⁺"),
        ("C6H8O7·H2O", "C₆H₈O₇·H₂O"),
    ],
)
def test_counts_are_lowered_and_charges_raised(text: str, printed: str) -> None:
    assert print_formula(read_formula(text)) == printed


def test_a_side_is_printed_with_its_coefficients() -> None:
    assert write_side({"Ca²⁺": 1, "OH⁻": 2}) == "Ca²⁺ + 2 OH⁻"


def test_what_is_no_step_is_refused() -> None:
    with pytest.raises(EquationError):
        read_change("CH3COOH + OH^-")
    with pytest.raises(EquationError, match="no element"):
        read_change("CH3COOH + Xy^- -> H2O")
