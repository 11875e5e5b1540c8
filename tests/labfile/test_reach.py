"""No step asks for what a student can't know."""

from __future__ import annotations

from tests.support.lab import read_tables
from workbook.labfile.reach import steps_can_be_answered

NUMBER = """
[[postlab]]
kind = "number"
of = "salt_mass"
asks = "What mass of salt is in the dish?"
"""
LAST = 'asks = "What is your percent yield?"\n'


def sentences(*edits: tuple[str, str]) -> list[str]:
    """Return what is said of the chalk lab with some texts replaced."""
    return [said for _, said in steps_can_be_answered(read_tables(*edits))]


def test_a_reading_may_follow_from_a_hidden_value() -> None:
    # The mass of the dish with the salt rests on the hidden share, and is read.
    assert sentences((LAST, LAST + NUMBER)) == []


def test_a_hidden_value_is_found_through_quantities_that_are_not_asked() -> None:
    said = sentences(
        ('is = "dish_and_salt - dish"', 'is = "salt_yield * share"'),
    )
    assert len(said) == 1
    assert said[0].startswith("'percent_yield' follows from the hidden 'share'")


def test_the_amounts_behind_a_limiting_reagent_must_be_known_too() -> None:
    said = sentences(
        ('"acid_volume * acid.molarity"', '"acid_volume * acid.molarity * share"'),
    )
    assert len(said) == 1
    assert said[0].startswith("'acid_amount' follows from the hidden 'share'")


def test_a_given_is_known_before_and_after_the_lab() -> None:
    after = LAST + NUMBER.replace("salt_mass", "planned_amount")
    assert sentences((LAST, after)) == []


def test_a_reading_before_the_lab_is_known_after_it() -> None:
    step = '[[postlab]]\nkind = "reading"\nof = "dish"'
    assert sentences((step, step.replace("postlab", "prelab"))) == []


def test_a_circle_does_not_keep_the_search_from_ending() -> None:
    assert sentences(('is = "salt_amount * ', 'is = "salt_yield * ')) == []
