"""Steps that ask for no one number, as they stand on a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import LIME, make_lab
from workbook.labfile.course import Conventions
from workbook.solver.bench import prepare
from workbook.solver.form import mix, write_form
from workbook.wire.sheet import (
    ChoiceStep,
    MatchingStep,
    MechanismStep,
    Option,
    OrderStep,
    PredictionStep,
    SheetId,
    Step,
    TextStep,
)

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab

SHEET = SheetId("autumn", "chalk-in-acid", 1, "s07")


@pytest.fixture
def lime(tmp_path: Path) -> Lab:
    return make_lab(tmp_path, LIME)


def write(lab: Lab, step: str) -> Step:
    (ask,) = (ask for ask in lab.public.asks if ask.id == step)
    return write_form(ask, SHEET)


def test_a_prediction_says_that_any_answer_is_accepted(lime: Lab) -> None:
    step = write(lime, "smell")
    assert isinstance(step, PredictionStep)
    assert step.options[1] == Option("sour", "Something sour")
    assert step.allowance.startswith("Accepted: any answer.")


def test_a_text_says_who_marks_it(lime: Lab) -> None:
    step = write(lime, "observations")
    assert isinstance(step, TextStep)
    assert step.prompts == ("while you poured", "after an hour")
    assert step.allowance.startswith("A person reads and marks it")


def test_a_choice_stands_with_its_options(lab: Lab) -> None:
    step = write(lab, "lye_statements")
    assert isinstance(step, ChoiceStep)
    assert step.several
    assert step.options[0].text == "H225 Highly flammable liquid and vapour"


def test_a_lab_of_these_kinds_is_made_ready(lime: Lab) -> None:
    assert prepare(lime, Conventions()).lab is lime


def test_cards_are_mixed_without_regard_to_how_they_came() -> None:
    cards = [Option(name, name) for name in "abcdef"]
    mixed = mix(cards, SHEET, "filtering")
    assert mix(reversed(cards), SHEET, "filtering") == mixed
    assert sorted(mixed, key=lambda card: card.id) == cards


def test_cards_are_mixed_otherwise_for_other_students() -> None:
    cards = [Option(name, name) for name in "abcdef"]
    sheets = [SheetId("autumn", "lime", 1, f"s{number}") for number in range(600)]
    mixed = {mix(cards, sheet, "filtering") for sheet in sheets}
    # 600 of 720 orders drawn with repetition leave 720 (1 - (719/720)^600) = 407.
    assert 370 < len(mixed) < 440


def test_an_order_stands_with_its_cards_mixed(lime: Lab) -> None:
    step = write(lime, "filtering")
    assert isinstance(step, OrderStep)
    assert {card.text for card in step.cards} >= {"Wet the paper", "Rinse the cake"}
    assert [card.id for card in step.cards] != sorted(card.id for card in step.cards)


def test_a_matching_stands_with_its_rows_and_options(lime: Lab) -> None:
    step = write(lime, "statements")
    assert isinstance(step, MatchingStep)
    assert step.several
    assert [row.text for row in step.rows] == ["lime", "vinegar", "water"]
    assert step.options[2] == Option("H318", "Causes serious eye damage")


def test_a_mechanism_stands_with_both_sides_of_each_card(lime: Lab) -> None:
    step = write(lime, "neutralising")
    assert isinstance(step, MechanismStep)
    (solid,) = (card for card in step.cards if card.id == "solid")
    assert solid.change == "Ca(OH)₂ → Ca²⁺ + 2 OH⁻"
    assert solid.gives.species == {"Ca²⁺": 1, "OH⁻": 2}
    assert (solid.gives.atoms, solid.gives.charge) == ({"Ca": 1, "O": 2, "H": 2}, 0)
