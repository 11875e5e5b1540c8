"""A reaction on one line is balanced, and its species are named."""

from __future__ import annotations

import pytest

from workbook.authoring.reaction import read_reaction
from workbook.errors import TaskError, WorkbookError


# Balanced by hand, atom by atom.
@pytest.mark.parametrize(
    ("typed", "equation"),
    [
        ("Mg + HCl -> MgCl2 + H2", "Mg + 2 HCl -> MgCl2 + H2"),
        ("2 H2 + O2 = 2 H2O", "2 H2 + O2 -> 2 H2O"),
        ("iron=Fe + gas=Cl2 -> FeCl3", "2 iron + 3 gas -> 2 FeCl3"),
        ("CuSO4·5H2O -> CuSO4 + H2O", "CuSO4_5H2O -> CuSO4 + 5 H2O"),
        ("Ag^+ + Cl^- -> AgCl", "Ag + Cl -> AgCl"),
        ("Ca(OH)2 + 2 HCl -> CaCl2 + 2 H2O", "Ca_OH_2 + 2 HCl -> CaCl2 + 2 H2O"),
        ("a=C2H6O + b=C2H4O2 <-> c=C4H8O2 + H2O", "a + b <-> c + H2O"),
    ],
)
def test_a_line_becomes_an_equation_in_names(typed: str, equation: str) -> None:
    assert read_reaction(typed).equation == equation


def test_a_species_keeps_its_formula_coefficient_and_molar_mass() -> None:
    sketched = read_reaction("Al + acid=HCl -> AlCl3 + H2").left[1]
    # CIAAW 2021 abridged: H 1.008, Cl 35.45.
    assert (sketched.key, sketched.formula, sketched.coefficient) == ("acid", "HCl", 6)
    assert str(sketched.molar_mass) == "36.4580"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("Mg + 2 HCl", "0 arrows stand in it"),
        ("Mg + 3 HCl -> MgCl2 + H2", "too many"),
        ("Mgg + HCl -> MgCl2 + H2", "'Mgg'"),
        ("oil + NaOH -> soap", "'oil' has no formula here"),
        ("a=Mg + a=HCl -> MgCl2 + H2", "A name stands twice"),
        ("Fe^2+ -> Fe^3+", "can't stand"),
        ("CO2=C + O2 -> [CO2]", "Two species would be called"),
        ("H2O + NaCl -> NaCl + H2O", "stands on both sides"),
        ("min=Mg + 2 HCl -> MgCl2 + H2", "'min' is a function of relations"),
        ("Tc + O2 -> TcO2", "has no standard atomic weight"),
        ("", "0 arrows"),
    ],
)
def test_what_can_not_be_read_is_refused_plainly(typed: str, said: str) -> None:
    with pytest.raises(WorkbookError) as caught:
        read_reaction(typed)
    assert said in str(caught.value)


def test_a_clash_offers_a_name() -> None:
    with pytest.raises(TaskError, match="Name one of them yourself"):
        read_reaction("CO2=C + O2 -> [CO2]")
