"""Equations: read, balanced or refused, and written."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook.errors import EquationError
from workbook.matter.equation import (
    Equation,
    Term,
    balance,
    read_equation,
    write,
)
from workbook.matter.formula import read_formula

SOAP = {
    "oil": read_formula("C57H104O6"),
    "lye": read_formula("NaOH"),
    "soap": read_formula("C18H33NaO2"),
    "glycerol": read_formula("C3H8O3"),
}
#: The first of them waits for SymPy, which takes a good part of a second to load.
LIMIT_MS = 3000
WRITTEN = st.text(alphabet="HOClNa0123 +->=→⇌<^./_oil()", max_size=80)


@pytest.mark.parametrize("arrow", ["->", "→", "=", "⇌", "<->", "<=>"])
def test_every_usual_arrow_parts_the_sides(arrow: str) -> None:
    equation = read_equation(f"2 H2 + O2 {arrow} 2 H2O")
    assert equation.left == (Term("H2", 2), Term("O2"))
    assert equation.right == (Term("H2O", 2),)


def test_a_coefficient_may_touch_its_formula() -> None:
    assert read_equation("2H2 + O2 -> 2H2O").left[0] == Term("H2", 2)


def test_charges_are_told_from_pluses() -> None:
    equation = read_equation("Ag+ + Cl- -> AgCl")
    assert equation.species == ("Ag+", "Cl-", "AgCl")


def test_a_charge_may_touch_the_arrow() -> None:
    assert read_equation("AgCl->Ag+ + Cl-").species == ("AgCl", "Ag+", "Cl-")


def test_names_and_formulas_may_stand_side_by_side() -> None:
    equation = read_equation("oil + 3 NaOH -> 3 soap + glycerol")
    assert balance(equation, SOAP).ratio("NaOH", "oil") == 3


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "0 arrows stand in it"),
        ("H2 + O2", "0 arrows stand in it"),
        ("H2 -> H -> H2", "2 arrows stand in it"),
        ("-> H2", "a term is missing"),
        ("H2 + -> H2", "a term is missing"),
        ("H2 +  + O2 -> H2O", "a term is missing"),
        ("H2+O2 -> H2O", "Put a space on both sides of a plus."),
        ("0 H2 -> H2", "the coefficient '0' is none"),
        ("12345 H2 -> H2", "the coefficient '12345' is none"),
        ("1/2 O2 -> O", "broken coefficient. Multiply the whole equation"),
        ("0.5 O2 -> O", "broken coefficient. Multiply the whole equation"),
        ("½ O2 -> O", "broken coefficient. Multiply the whole equation"),
        ("NaCl(aq) -> NaCl", "tells the state; leave it out"),
        ("SO42- -> SO4^2-", "can be a count or a charge"),
        ("HCl + HCl -> H2", "'HCl' stands twice on one side"),
        (" + ".join("ABCDEFGHIJKLM") + " -> Z", "a side has 13 terms; 12 are allowed"),
    ],
)
def test_what_is_no_equation_is_refused(text: str, reason: str) -> None:
    with pytest.raises(EquationError, match=reason):
        read_equation(text)


def test_a_long_text_is_refused_unread_and_not_repeated() -> None:
    with pytest.raises(EquationError) as caught:
        read_equation("H + " * 100_000 + "-> H")
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize(
    ("text", "balanced"),
    [
        # Hand arithmetic, each a standard exercise; checked atom by atom.
        ("H2 + O2 -> H2O", "2 H2 + O2 → 2 H2O"),
        ("C3H8 + O2 -> CO2 + H2O", "C3H8 + 5 O2 → 3 CO2 + 4 H2O"),
        ("Fe + O2 -> Fe2O3", "4 Fe + 3 O2 → 2 Fe2O3"),
        (
            "MnO4^- + C2O4^2- + H+ -> Mn^2+ + CO2 + H2O",
            "2 MnO4^- + 5 C2O4^2- + 16 H+ → 2 Mn^2+ + 10 CO2 + 8 H2O",
        ),
        (
            "KMnO4 + HCl -> KCl + MnCl2 + Cl2 + H2O",
            "2 KMnO4 + 16 HCl → 2 KCl + 2 MnCl2 + 5 Cl2 + 8 H2O",
        ),
    ],
)
def test_coefficients_are_found_where_all_are_left_out(
    text: str, balanced: str
) -> None:
    assert write(balance(read_equation(text))) == balanced


def test_coefficients_of_named_species_are_found() -> None:
    # Common knowledge: a fat has three acids, so three lye and three soap.
    found = balance(read_equation("oil + lye -> soap + glycerol"), SOAP)
    assert write(found) == "oil + 3 lye → 3 soap + glycerol"


def test_an_equation_that_balances_as_written_is_kept() -> None:
    kept = balance(read_equation("4 H2 + 2 O2 -> 4 H2O"))
    assert [term.coefficient for term in (*kept.left, *kept.right)] == [4, 2, 4]


def test_water_on_both_sides_is_kept() -> None:
    # "Chemistry 2e", section 4.4, end of chapter: sucrose to citric acid.
    text = "C12H22O11 + H2O + 3 O2 → 2 C6H8O7 + 4 H2O"
    assert write(balance(read_equation(text))) == text


def test_a_left_out_coefficient_beside_written_ones_counts_as_one() -> None:
    found = balance(read_equation("oil + 3 lye -> 3 soap + glycerol"), SOAP)
    assert found.left == (Term("oil", 1), Term("lye", 3))


def test_a_wrong_coefficient_names_the_surplus_and_what_to_do() -> None:
    with pytest.raises(EquationError) as caught:
        balance(read_equation("oil + 2 lye -> 3 soap + glycerol"), SOAP)
    assert caught.value.reason == (
        "The right side has 1 H, 1 Na and 1 O too many. A coefficient that is left "
        "out counts as 1; write that one too, or leave all of them out to have them "
        "found."
    )


def test_wrong_coefficients_that_are_all_written_say_what_to_do() -> None:
    with pytest.raises(EquationError, match="Leave all coefficients out"):
        balance(read_equation("2 H2 + 2 O2 -> 2 H2O"))


def test_a_charge_that_does_not_balance_is_named() -> None:
    with pytest.raises(EquationError, match=r"\+3 on the left and \+2 on the right"):
        balance(read_equation("1 Fe^3+ -> 1 Fe^2+"))


def test_a_species_without_a_formula_offers_the_nearest_name() -> None:
    with pytest.raises(EquationError, match=r"'sope' has no .* Did you mean 'soap'"):
        balance(read_equation("oil + lye -> sope + glycerol"), SOAP)


def test_a_species_that_reads_as_nothing_says_why() -> None:
    with pytest.raises(EquationError, match="Did you mean 'Cl'"):
        balance(read_equation("NaCL -> Na"))


def test_a_ratio_is_exact() -> None:
    equation = read_equation("5 H2C2O4 + 2 MnO4^- -> CO2")
    assert equation.ratio("H2C2O4", "MnO4^-") == Fraction(5, 2)


def test_a_ratio_of_a_stranger_is_refused() -> None:
    with pytest.raises(EquationError, match="Did you mean 'soap'"):
        read_equation("oil -> soap").ratio("sopa", "oil")


def test_a_ratio_of_what_stands_on_both_sides_is_refused() -> None:
    with pytest.raises(EquationError, match="'H2O' stands on both sides"):
        read_equation("A + H2O -> B + 4 H2O").ratio("H2O", "A")


def test_an_equation_is_written_with_other_names() -> None:
    equation = read_equation("2 base + acid <-> salt")
    assert write(equation, {"base": "NaOH"}) == "2 NaOH + acid ⇌ salt"


@settings(deadline=LIMIT_MS)
@given(WRITTEN | st.text(max_size=60))
def test_any_text_is_an_equation_or_refused(text: str) -> None:
    with suppress(EquationError):
        equation = read_equation(text)
        assert equation.left
        assert equation.right
        balance(equation)


@settings(deadline=LIMIT_MS)
@given(st.permutations(["H2O", "CO2", "C2H6O", "O2"]), st.integers(1, 3))
def test_what_balance_finds_stands_its_own_check(
    species: list[str], split: int
) -> None:
    terms = [Term(each) for each in species]
    try:
        found = balance(Equation(tuple(terms[:split]), tuple(terms[split:])))
    except EquationError:
        return
    assert balance(found) == found
