"""Splitting a relation into pieces."""

from __future__ import annotations

import pytest

from workbook.errors import RelationError
from workbook.relation.lexeme import STUDENT_SIGNS, Kind, Lexeme, split


def test_a_piece_knows_where_it_stands() -> None:
    assert split("a  + 12.50", student=False) == (
        Lexeme(Kind.NAME, "a", 0),
        Lexeme(Kind.SIGN, "+", 3),
        Lexeme(Kind.NUMBER, "12.50", 5),
        Lexeme(Kind.END, "", 10),
    )


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("2e3x", ["2e3", "x"]),
        ("2e", ["2", "e"]),
        ("2e-x", ["2", "e", "-", "x"]),
        ("2E+3", ["2E+3"]),
        ("3C3H5", ["3", "C3H5"]),
        ("x2", ["x2"]),
        ("a.b.c", ["a.b.c"]),
        ("a**b", ["a", "^", "b"]),
    ],
)
def test_digits_and_letters_part_where_they_must(text: str, pieces: list[str]) -> None:
    assert [piece.text for piece in split(text, student=False)] == [*pieces, ""]


@pytest.mark.parametrize(("typed", "plain"), sorted(STUDENT_SIGNS.items()))
def test_a_sign_of_a_word_processor_is_for_students(typed: str, plain: str) -> None:
    assert split(typed, student=True)[0] == Lexeme(Kind.SIGN, plain, 0)
    with pytest.raises(RelationError, match="not used in a lab file; write"):
        split(typed, student=False)


def test_a_bracketed_formula_is_for_students() -> None:
    assert split("M(NaOH)", student=True)[0].text == "M(NaOH)"
    assert split("M(NaOH)", student=False)[0].text == "M"


def test_a_function_never_takes_a_formula_into_its_name() -> None:
    assert split("sqrt(C)", student=True)[0].text == "sqrt"


# 30 digits and 10^30 hold every constant of chemistry: Avogadro's is 6.022e23.
@pytest.mark.parametrize("text", ["1" * 30, "1e30", "1e-30"])
def test_a_number_may_be_long(text: str) -> None:
    assert split(text, student=False)[0].text == text


@pytest.mark.parametrize("text", ["1" * 31, "1e31", "1e-31", "." + "1" * 31])
def test_a_number_may_not_be_endless(text: str) -> None:
    with pytest.raises(RelationError, match="too long"):
        split(text, student=False)


@pytest.mark.parametrize("text", ["12.", ".", "1..2", "1.2.3", "a.", "a._b"])
def test_a_misshapen_number_is_refused(text: str) -> None:
    with pytest.raises(RelationError, match="is not a number"):
        split(text, student=False)


@pytest.mark.parametrize("text", ["_a", "a$", "#", "a:"])
def test_a_strange_character_is_named(text: str) -> None:
    with pytest.raises(
        RelationError, match=r"Character \d+ is '.' \([A-Z ]+\)"
    ) as caught:
        split(text, student=False)
    assert caught.value.text == text
