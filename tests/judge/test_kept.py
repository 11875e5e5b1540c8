"""What is kept and not judged."""

from __future__ import annotations

import pytest

from workbook.judge.kept import commit, keep
from workbook.labfile.half import Ask
from workbook.wire.answer import Chosen, Typed
from workbook.wire.verdict import Outcome

SMELL = Ask(
    "smell", "prediction", "What will you smell?", options=(("a", "A"), ("b", "B"))
)


@pytest.mark.parametrize("option", ["a", "b"])
def test_any_prediction_earns_the_step(option: str) -> None:
    verdict = commit(SMELL, Chosen((option,)))
    assert verdict.outcome is Outcome.COMMITTED
    assert verdict.value_holds


@pytest.mark.parametrize(
    ("options", "outcome"),
    [
        ((), Outcome.BLANK),
        (("a", "b"), Outcome.UNREAD),
        (("c",), Outcome.UNREAD),
    ],
)
def test_what_is_no_prediction_is_no_attempt(
    options: tuple[str, ...], outcome: Outcome
) -> None:
    verdict = commit(SMELL, Chosen(options))
    assert verdict.outcome is outcome
    assert not verdict.value_holds


def test_a_text_waits_for_a_person_and_earns_nothing_before() -> None:
    verdict = keep(Typed("It grew warm."))
    assert verdict.outcome is Outcome.KEPT
    assert not verdict.value_holds


@pytest.mark.parametrize("text", ["", " \n\t "])
def test_a_text_of_blanks_is_no_attempt(text: str) -> None:
    assert keep(Typed(text)).outcome is Outcome.BLANK
