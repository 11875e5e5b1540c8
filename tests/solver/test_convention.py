"""The conventions of a course, as students read them."""

from __future__ import annotations

from itertools import product

import pytest

from workbook.labfile.course import Conventions
from workbook.measure.rounding import Ties
from workbook.measure.written import Comma
from workbook.solver.convention import say_rules


def test_the_rules_of_a_course_that_chooses_none() -> None:
    assert say_rules(Conventions()) == (
        "Atomic weights: 2021 abridged.",
        "A digit exactly half way is rounded to the even neighbour.",
        "Write a decimal point; 1,500 is asked about.",
        "Any unit of the right kind is accepted.",
        "Figures are judged apart from the value; 1 more or fewer is accepted.",
    )


def test_every_choice_is_said_in_words_of_its_own() -> None:
    said = {
        say_rules(Conventions(ties=ties, comma=comma))
        for ties, comma in product(Ties, Comma)
    }
    assert len(said) == len(Ties) * len(Comma)


@pytest.mark.parametrize("slack", [0, 2])
def test_the_slack_of_figures_is_said(slack: int) -> None:
    assert f"; {slack} more or fewer" in say_rules(Conventions(figures_slack=slack))[-1]


def test_the_table_of_atomic_weights_is_said() -> None:
    rules = say_rules(Conventions(atomic_weights="two decimals"))
    assert rules[0] == "Atomic weights: two decimals."
