"""The verdict on what belongs to what."""

from __future__ import annotations

import pytest

from workbook.judge.matching import judge_matching
from workbook.wire.answer import Match
from workbook.wire.verdict import Outcome, Verdict

ROWS = {"lime": "lime", "vinegar": "strong vinegar", "water": "water"}
BELONGS = {"lime": ("H318",), "vinegar": ("H226", "H314"), "water": ()}


def verdict(**given: tuple[str, ...]) -> Verdict:
    matches = [Match(row, options) for row, options in given.items()]
    return judge_matching(matches, ROWS, BELONGS)


def test_all_rows_must_hold() -> None:
    said = verdict(lime=("H318",), vinegar=("H314", "H226"), water=())
    assert said.outcome is Outcome.RIGHT
    assert said.value_holds
    assert said.parts == (True, True, True)


def test_rows_that_need_another_look_are_named_and_not_what_belongs() -> None:
    said = verdict(lime=("H314",), vinegar=("H226", "H314"), water=("H318",))
    assert said.outcome is Outcome.PARTLY
    assert said.parts == (False, True, False)
    assert said.sentence.endswith("Look again at: lime; water.")
    assert "H3" not in said.sentence


def test_where_no_row_holds_nothing_does() -> None:
    said = verdict(lime=("H226",), vinegar=("H318",), water=("H314",))
    assert (said.outcome, said.value_holds) == (Outcome.WRONG, False)


def test_a_row_that_is_left_out_has_nothing() -> None:
    assert verdict(vinegar=("H226",)).parts == (False, False, True)


@pytest.mark.parametrize(
    ("matches", "outcome"),
    [
        ((), Outcome.BLANK),
        ((Match("lime", ()),), Outcome.BLANK),
        ((Match("gold", ("H318",)),), Outcome.UNREAD),
        ((Match("lime", ("H318",)), Match("lime", ("H226",))), Outcome.UNREAD),
    ],
)
def test_what_is_no_answer_is_no_attempt(
    matches: tuple[Match, ...], outcome: Outcome
) -> None:
    assert judge_matching(matches, ROWS, BELONGS).outcome is outcome
