"""The way to a result and the result itself: judged apart, said together."""

from __future__ import annotations

import pytest

from workbook.judge import words
from workbook.judge.working import Working, join
from workbook.wire.verdict import Outcome, Verdict

HELD = Working(holds=True)
FAILED = Working(holds=False, sentence="Line 2 stops.", at=1)
UNREAD = Working(holds=False, sentence="Line 2 can't be read.", at=1, unread=True)

RIGHT = Verdict(Outcome.RIGHT, "Right.", value_holds=True)
FOLLOWS = Verdict(Outcome.FOLLOWS, "It follows.", value_holds=True, follows=True)
FIGURES = Verdict(Outcome.FIGURES, "Too many figures.", value_holds=True)
WRONG = Verdict(Outcome.WRONG, "Not so.")
DIMENSION = Verdict(Outcome.DIMENSION, "mol is no mass.")


@pytest.mark.parametrize(
    ("working", "value", "outcome", "sentence"),
    [
        (HELD, RIGHT, Outcome.RIGHT, "Right."),
        (HELD, FOLLOWS, Outcome.FOLLOWS, "It follows."),
        (HELD, FIGURES, Outcome.FIGURES, "Too many figures."),
        (HELD, WRONG, Outcome.WRONG, words.RESULT_NOT),
        (HELD, DIMENSION, Outcome.DIMENSION, "mol is no mass."),
        (FAILED, RIGHT, Outcome.WRONG, f"Line 2 stops. {words.RESULT_ALL_THE_SAME}"),
        (FAILED, FOLLOWS, Outcome.WRONG, f"Line 2 stops. {words.RESULT_FOLLOWS}"),
        (FAILED, WRONG, Outcome.WRONG, "Line 2 stops."),
        (FAILED, DIMENSION, Outcome.DIMENSION, "Line 2 stops. mol is no mass."),
        (UNREAD, RIGHT, Outcome.UNREAD, "Line 2 can't be read."),
        (UNREAD, WRONG, Outcome.UNREAD, "Line 2 can't be read."),
    ],
)
def test_working_and_result_make_one_verdict(
    working: Working, value: Verdict, outcome: Outcome, sentence: str
) -> None:
    joined = join(working, value)
    assert (joined.outcome, joined.sentence) == (outcome, sentence)
    assert joined.value_holds is value.value_holds
    assert joined.method_holds is working.holds
    assert joined.at == working.at
