"""Reading the parts of a formula, and refusing what is not certain."""

from __future__ import annotations

import pytest

from workbook.errors import FormulaError
from workbook.matter.part import Atom, Group, Part
from workbook.matter.reader import DEPTH_LIMIT, read_parts

WATER = (Atom("H", 2), Atom("O"))


@pytest.mark.parametrize(
    "text",
    [
        "CaSO4·2H2O",
        "CaSO4•2H2O",
        "CaSO4.2H2O",
        "CaSO4*2H2O",
        "CaSO4∙2H2O",
        "CaSO4⋅2H2O",
        "CaSO4 · 2 H2O",
        "CaSO₄·2H₂O",
        "CaSO4 . 2H2O",
    ],
)
def test_every_usual_dot_joins_water(text: str) -> None:
    sulfate = Part(1, (Atom("Ca"), Atom("S"), Atom("O", 4)))
    assert read_parts(text) == (sulfate, Part(2, WATER))


def test_a_dot_without_a_number_joins_one() -> None:
    assert read_parts("LiOH.H2O")[1] == Part(1, WATER)


def test_a_point_joins_water_after_a_bracket() -> None:
    assert read_parts("KAl(SO4)2.12H2O")[1] == Part(12, WATER)


def test_other_parts_than_water_need_a_dot_that_is_no_point() -> None:
    assert [part.count for part in read_parts("Al2O3·2SiO2·2H2O")] == [1, 2, 2]


def test_brackets_nest() -> None:
    inner = Group("(", (Atom("N"), Atom("H", 3)), 6)
    (part,) = read_parts("[Co(NH3)6]Cl3")
    assert part.items == (Group("[", (Atom("Co"), inner)), Atom("Cl", 3))


def test_capitals_tell_cobalt_from_carbon_monoxide() -> None:
    assert read_parts("Co")[0].items == (Atom("Co"),)
    assert read_parts("CO")[0].items == (Atom("C"), Atom("O"))


@pytest.mark.parametrize(
    ("text", "position", "reason"),
    [
        ("O4.5", 4, "a formula must follow a dot"),
        ("CaSO4·1.5H2O", 7, "a formula must follow a dot"),
        ("CaSO4·0.5H2O", 6, "a count is a whole number"),
        ("Fe0.95O", 2, "a count is a whole number"),
        ("Fe1.95O2", 3, "may be a decimal point"),
        ("Fe.95O", 2, "may be a decimal point"),
        ("MnO1.5H2O", 4, "may be a decimal point"),
        ("Al2O3.2SiO2", 5, "may be a decimal point"),
        ("NaCl.", 5, "ends where an element is expected"),
        ("CuSO4··5H2O", 6, "'·' can't stand here"),
        ("CuSO4,5H2O", 5, "',' can't stand here"),
        ("2H2O", 0, "starts with a number"),
        ("H02", 1, "a count is a whole number"),
        ("H12345", 1, "at most 4 digits"),
        ("Xx2", 0, "'Xx' is no element"),
        ("Nacl", 0, "'Nacl' is no element"),
        ("NaCL", 3, "Did you mean 'Cl'? Capitals count."),
        ("Ax", 0, "Symbols with A are Ac, Ag, Al, Am, Ar, As, At, Au."),
        ("Jx", 0, "'Jx' is no element."),
        ("naCl", 0, "starts with a capital, not 'n'. Did you mean 'N' or 'Na'?"),
        ("h2o", 0, "Did you mean 'H'?"),
        ("Ca(OH2", 2, "no ')' closes this '('"),
        ("Ca(OH]2", 2, "no ')' closes this '('"),
        ("CaOH)2", 4, "')' can't stand here"),
        ("Ca()2", 3, "')' can't stand here"),
        ("Na Cl", 2, "a space stands inside"),
        ("Na+Cl", 2, "a charge comes last"),
        ("SO4^{2-}", 3, "a charge comes last"),
        ("FeCl3(aq)", 5, "tells the state"),
        ("Fe(III)Cl3", 2, "looks like an oxidation number"),
        ("¹³C", 0, "'¹' can't stand here"),
        ("", 0, "ends where an element is expected"),
    ],
)
def test_what_is_not_certain_is_refused_with_its_place(
    text: str, position: int, reason: str
) -> None:
    with pytest.raises(FormulaError) as caught:
        read_parts(text)
    assert caught.value.position == position
    assert reason in caught.value.reason


def test_brackets_that_go_too_deep_are_refused() -> None:
    deep = "(" * (DEPTH_LIMIT + 1) + "H" + ")" * (DEPTH_LIMIT + 1)
    with pytest.raises(FormulaError, match="brackets go deeper than 8"):
        read_parts(deep)


def test_brackets_may_go_as_deep_as_the_limit() -> None:
    assert read_parts("(" * DEPTH_LIMIT + "H" + ")" * DEPTH_LIMIT)
