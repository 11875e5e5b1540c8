"""Comparing two sides, and finding what balances them."""

from __future__ import annotations

import subprocess
import sys

import pytest

from workbook.errors import EquationError
from workbook.matter.balance import compare_sides, find_coefficients
from workbook.matter.formula import Formula, read_formula


def formulas(*texts: str) -> list[Formula]:
    return [read_formula(text) for text in texts]


def test_balanced_sides_do_not_differ() -> None:
    left, right = formulas("H2", "O2"), formulas("H2O")
    assert compare_sides(left, right, [2, 1, 2]) == ""


def test_each_side_says_its_own_surplus() -> None:
    # NaOH + H2SO4 -> Na2SO4 + H2O: 1 Na, 3 H, 5 O against 2 Na, 2 H, 5 O.
    left, right = formulas("NaOH", "H2SO4"), formulas("Na2SO4", "H2O")
    assert compare_sides(left, right, [1, 1, 1, 1]) == (
        "The left side has 1 H too many. The right side has 1 Na too many."
    )


def test_a_surplus_of_several_elements_is_one_sentence() -> None:
    left, right = formulas("C2H5OH"), formulas("C2H4")
    assert compare_sides(left, right, [1, 1]) == (
        "The left side has 2 H and 1 O too many."
    )


def test_charge_is_compared_too() -> None:
    # Zn + Ag+ -> Zn2+ + Ag balances in atoms only.
    left, right = formulas("Zn", "Ag+"), formulas("Zn^2+", "Ag")
    assert compare_sides(left, right, [1, 1, 1, 1]) == (
        "The charge is +1 on the left and +2 on the right."
    )


def test_the_coefficients_of_a_redox_equation_come_from_charge() -> None:
    # Zn + 2 Ag+ -> Zn2+ + 2 Ag, by hand.
    left, right = formulas("Zn", "Ag+"), formulas("Zn^2+", "Ag")
    assert find_coefficients("", left, right) == [1, 2, 1, 2]


def test_coefficients_that_the_formulas_do_not_settle_are_refused() -> None:
    # Hydrogen peroxide also falls apart by itself, to any extent beside the rest.
    left = formulas("H2O2", "KMnO4", "H2SO4")
    right = formulas("O2", "MnSO4", "K2SO4", "H2O")
    with pytest.raises(EquationError, match="do not settle its coefficients"):
        find_coefficients("x", left, right)


@pytest.mark.parametrize(
    ("left", "right"),
    [
        (("H2",), ("O2",)),
        (("H2", "He"), ("H",)),
        (("H2", "O2", "H2O"), ("H2O2", "He")),
    ],
)
def test_sides_that_nothing_balances_are_refused(
    left: tuple[str, ...], right: tuple[str, ...]
) -> None:
    with pytest.raises(EquationError, match=r"no coefficients balance|do not settle"):
        find_coefficients("x", formulas(*left), formulas(*right))


def test_a_species_on_the_wrong_side_is_refused() -> None:
    with pytest.raises(EquationError, match="no coefficients balance it"):
        find_coefficients("x", formulas("H2", "H2O"), formulas("O2"))


def test_sympy_is_not_loaded_until_coefficients_are_wanted() -> None:
    code = "import sys, workbook.matter.equation; assert 'sympy' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
