"""The sentences say where, what stands there, and what to do."""

from __future__ import annotations

import inspect
from pathlib import Path

import pytest

from workbook.relation import complaint
from workbook.relation.lexeme import Kind, Lexeme

NAME = Lexeme(Kind.NAME, "rato", 6)
CALL = Lexeme(Kind.NAME, "ratio", 6)
STAR = Lexeme(Kind.SIGN, "*", 6)
END = Lexeme(Kind.END, "", 6)

SENTENCES = [
    complaint.wants_operand(NAME, STAR),
    complaint.wants_sign(NAME, NAME),
    complaint.has_no_place(Lexeme(Kind.SIGN, ")", 6)),
    complaint.has_no_place(Lexeme(Kind.SIGN, ",", 6)),
    complaint.has_no_place(Lexeme(Kind.SIGN, "=", 6)),
    complaint.is_unclosed(STAR),
    complaint.is_two_products(NAME),
    complaint.is_two_names(NAME),
    complaint.is_two_names(CALL),
    complaint.is_no_function(NAME),
    complaint.has_arguments(CALL, 3),
    complaint.wants_species(CALL),
]


@pytest.mark.parametrize("sentence", SENTENCES)
def test_characters_are_counted_from_one(sentence: str) -> None:
    assert "character 7" in sentence


@pytest.mark.parametrize("sentence", SENTENCES)
def test_there_is_something_to_do(sentence: str) -> None:
    assert any(
        word in sentence
        for word in (
            "Write",
            "write",
            "Remove",
            "Start",
            "Did you",
            "Sep",
            "takes",
            "12.5",
        )
    )


def test_no_sentence_is_forgotten_here() -> None:
    shown = Path(__file__).read_text(encoding="utf-8")
    ours = [
        name
        for name, of in vars(complaint).items()
        if inspect.isfunction(of) and of.__module__ == complaint.__name__
    ]
    assert [name for name in ours if f"complaint.{name}(" not in shown] == []


def test_an_empty_text_and_a_cut_one_differ() -> None:
    assert "Nothing is written" in complaint.wants_operand(None, END)
    assert "ends after '*'" in complaint.wants_operand(STAR, END)
