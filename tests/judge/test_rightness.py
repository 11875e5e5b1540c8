"""What is right where no quantity is asked, in the answer book's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lime import make_lime_case
from workbook.judge.rightness import say_right

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case


@pytest.fixture
def lime(tmp_path: Path) -> Case:
    return make_lime_case(tmp_path)


def say(case: Case, step: str) -> str:
    (ask,) = (ask for ask in case.graph.lab.public.asks if ask.id == step)
    return say_right(case, ask)


def test_a_choice_is_answered_by_the_texts_of_its_options(case: Case) -> None:
    assert say(case, "lye_statements") == (
        "H290 May be corrosive to metals; H314 Causes severe skin burns and eye damage"
    )
    assert say(case, "limiting") == "olive oil"


def test_any_prediction_is_right(lime: Case) -> None:
    assert say(lime, "smell").startswith("Any answer")


def test_a_matching_is_answered_row_by_row(lime: Case) -> None:
    assert say(lime, "statements") == (
        "lime: Causes serious eye damage; vinegar: Flammable liquid and vapour, Causes "
        "severe skin burns and eye damage; water: nothing"
    )


def test_a_mechanism_is_answered_without_its_decoys(lime: Case) -> None:
    assert say(lime, "neutralising") == (
        "The solid parts; A proton goes over; The ions gather"
    )


def test_an_order_is_answered_by_one_that_is_right(lime: Case) -> None:
    assert say(lime, "filtering") == (
        "Lay the filter paper; Wet the paper; Turn the water on; Pour the slurry; "
        "Take the hose off; Rinse the cake"
    )


def test_a_text_is_marked_by_what_the_author_looks_for(lime: Case) -> None:
    assert say(lime, "observations") == (
        "A person marks it. Warmth on mixing. A cloud that clears."
    )
