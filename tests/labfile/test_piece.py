"""Rules on the pieces of a molar mass."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.field import read_expression
from workbook.labfile.piece import is_sum, molar_masses_have_pieces, piece_formulas

PIECES = 'pieces = { chalk = "x + CO3", salt = "x + 2 Cl" }'


def test_the_formulas_of_the_pieces_are_listed_without_letters() -> None:
    row = read_tables().molar_mass["salt"]
    assert piece_formulas(row) == ("CO3", "Cl")


@pytest.mark.parametrize(
    "text", ["x", "C3H5 + 3 x", "3(x + CH2) - H2O", "-x + Na", "x * 3", "x/2"]
)
def test_a_sum_of_names_each_some_times_is_a_sum(text: str) -> None:
    assert is_sum(read_expression(text))


@pytest.mark.parametrize("text", ["x * y", "x^2", "x + 22.99", "3", "3/x"])
def test_a_product_of_letters_or_a_bare_number_is_no_sum(text: str) -> None:
    assert not is_sum(read_expression(text))


def test_good_pieces_are_passed() -> None:
    assert list(molar_masses_have_pieces(read_tables())) == []


def test_a_species_without_a_formula_has_no_known_molar_mass() -> None:
    file = read_tables(('formula = "CaCl2"', ""))
    assert (
        ("molar_mass", "salt"),
        "the species 'salt' needs a formula, to know its molar mass.",
    ) in list(molar_masses_have_pieces(file))


def test_a_molar_mass_does_not_come_from_itself() -> None:
    file = read_tables(
        ('from = "chalk"', 'from = "salt"'), (PIECES, 'pieces = { salt = "x + 2 Cl" }')
    )
    assert list(molar_masses_have_pieces(file)) == [
        (
            ("molar_mass", "salt", "from"),
            "a molar mass can't come from itself; 'salt' stands twice.",
        )
    ]


def test_a_letter_is_not_called_like_a_species() -> None:
    file = read_tables(
        (PIECES, 'pieces = { chalk = "gas + CO3", salt = "gas + 2 Cl" }'),
        ("letters = { x", "letters = { gas"),
    )
    ((place, sentence),) = molar_masses_have_pieces(file)
    assert place == ("molar_mass", "salt", "letters", "gas")
    assert "take another letter" in sentence


def test_a_piece_with_an_element_that_has_no_weight_is_found() -> None:
    file = read_tables((PIECES, 'pieces = { chalk = "x + Tc", salt = "x + 2 Cl" }'))
    ((place, sentence),) = molar_masses_have_pieces(file)
    assert place == ("molar_mass", "salt", "pieces")
    assert "Tc" in sentence
