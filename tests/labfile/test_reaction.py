"""The reactions of a lab file."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.errors import EquationError
from workbook.labfile.reaction import (
    balanced_equation,
    equation_around,
    equations_balance,
    equations_with,
    formulas_read,
    reactions_of,
    readable_equations,
    why_no_ratio,
)
from workbook.matter.equation import read_equation, write

MAIN = "chalk + 2 acid -> salt + water + gas"


def test_the_labs_own_reaction_comes_first_under_the_empty_name() -> None:
    assert list(reactions_of(read_tables())) == ["", "rinse"]


def test_coefficients_that_are_left_out_are_found() -> None:
    # CaCO3 + 2 HCl -> CaCl2 + H2O + CO2, balanced by hand.
    file = read_tables((MAIN, "chalk + acid -> salt + water + gas"))
    equation = balanced_equation(file, readable_equations(file)[""])
    assert write(equation) == "chalk + 2 acid → salt + water + gas"


def test_an_equation_that_does_not_balance_is_refused() -> None:
    with pytest.raises(EquationError, match="Cl"):
        balanced_equation(read_tables(), read_equation("2 chalk + acid -> salt"))


def test_a_species_without_a_formula_can_not_be_balanced() -> None:
    file = read_tables(('formula = "HCl"', ""))
    with pytest.raises(KeyError, match="acid"):
        balanced_equation(file, readable_equations(file)[""])


def test_what_is_wrong_with_a_formula_is_told_once() -> None:
    file = read_tables(('formula = "HCl"', 'formula = "Hcl"'))
    assert len(list(formulas_read(file))) == 1
    assert list(equations_balance(file)) == []


def test_an_equation_that_can_not_be_read_is_left_out() -> None:
    file = read_tables(("chalk + 2 vinegar ->", "chalk + 2 vinegar"))
    assert list(readable_equations(file)) == [""]


def test_equations_are_found_by_their_species() -> None:
    equations = readable_equations(read_tables())
    assert len(equations_with(equations, {"chalk", "gas"})) == 2
    assert len(equations_with(equations, {"chalk", "acid"})) == 1
    assert equations_with(equations, {"acid", "vinegar"}) == ()


@pytest.mark.parametrize(
    ("of", "name"),
    [
        (["chalk", "acid"], ""),
        (["acid.solution", "salt"], ""),
        (["chalk", "vinegar"], "rinse"),
        ([None, "acetate"], "rinse"),
        ([None, None], ""),
        (["acid", "acetate"], ""),
    ],
)
def test_quantities_belong_to_the_first_equation_that_holds_them(
    of: list[str | None], name: str
) -> None:
    equations = readable_equations(read_tables())
    assert equation_around(equations, of) == equations[name]


def test_a_ratio_needs_exactly_one_equation() -> None:
    equations = readable_equations(read_tables())
    assert why_no_ratio(equations, ("salt", "chalk")) is None
    assert why_no_ratio(equations, ("gas", "chalk")) == (
        "2 equations hold 'gas', 'chalk' together; exactly one must."
    )


def test_what_stands_on_both_sides_has_no_coefficient() -> None:
    equations = {"": read_equation("oil + acid -> soap + acid")}
    assert "both sides" in (why_no_ratio(equations, ("soap", "acid")) or "")


def test_a_ratio_may_say_which_of_several_equations_is_meant() -> None:
    equations = readable_equations(read_tables())
    for name in ("reaction", "rinse"):
        assert why_no_ratio(equations, ("gas", "chalk"), name) is None
    assert why_no_ratio(equations, ("salt", "chalk"), "rinse") == (
        "no equation holds 'salt', 'chalk' together; exactly one must."
    )


def test_a_reaction_that_a_ratio_names_must_be_there() -> None:
    equations = readable_equations(read_tables())
    assert why_no_ratio(equations, ("gas", "chalk"), "rinze") == (
        "'rinze' is no reaction of this file. Did you mean 'rinse'?"
    )


def test_the_name_of_the_lab_s_own_reaction_is_taken() -> None:
    file = read_tables(("[reactions.rinse]", "[reactions.reaction]"))
    ((place, said),) = equations_balance(file)
    assert place == ("reactions", "reaction")
    assert said.startswith("'reaction' is the lab's own reaction")
