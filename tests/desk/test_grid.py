"""Students by steps: a word and a shape for each."""

from __future__ import annotations

from zoneinfo import ZoneInfo

import pytest

from tests.support.soap import NOON
from workbook.desk.grid import show_rows
from workbook.desk.running import Row, Tried
from workbook.front.shape import draw
from workbook.labfile.half import Ask
from workbook.labfile.roster import Student
from workbook.wire.verdict import NO_ATTEMPT, Outcome

ASKS = (Ask("oil_mass", "chain", "What mass?"), Ask("dish", "reading", "What?"))
ADA = Student("a1", "Ada <Moss>")
CAPTION = "1 <student>."


def show(tried: Tried | None) -> str:
    row = Row(ADA, {} if tried is None else {"dish": tried}, None)
    return show_rows([row], ASKS, {"a1": NOON}, ZoneInfo("Europe/Paris"), CAPTION)


@pytest.mark.parametrize("outcome", sorted(set(Outcome) - NO_ATTEMPT, key=str))
def test_each_outcome_of_an_attempt_has_a_shape_and_a_word_of_its_own(
    outcome: Outcome,
) -> None:
    shown = show(Tried(1, outcome, NOON))
    assert draw(outcome) in shown
    assert ">waits<" not in shown


def test_an_attempt_without_a_verdict_waits() -> None:
    assert ">waits" in show(Tried(1, None, NOON))


def test_several_attempts_are_counted() -> None:
    assert "×3" in show(Tried(3, Outcome.RIGHT, NOON))
    assert "×" not in show(Tried(1, Outcome.RIGHT, NOON))


def test_a_step_that_was_not_tried_says_so_to_a_screen_reader() -> None:
    assert show(None).count("not tried") == 2


def test_names_are_escaped_and_times_are_the_course_s() -> None:
    shown = show(Tried(1, Outcome.RIGHT, NOON))
    assert "Ada &lt;Moss&gt;" in shown
    # NOON is 12:00 UTC on 2 March; Paris is an hour ahead in winter.
    assert "02 Mar 13:00" in shown
    assert "1 of 2" in shown


def test_the_caption_says_whose_times_they_are() -> None:
    assert "<caption>1 &lt;student&gt;. Times are of Europe/Paris.</caption>" in show(
        None
    )
