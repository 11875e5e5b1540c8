"""How long an answer waits."""

from __future__ import annotations

import pytest

from workbook.client.delay import Delay, find_delay
from workbook.errors import (
    CheckerAwayError,
    CheckerDiedError,
    CheckerError,
    CheckerRefusedError,
    CheckerSlowError,
)
from workbook.wire.message import Why


@pytest.mark.parametrize(
    "error",
    [
        CheckerAwayError("judge", "nothing answers"),
        CheckerDiedError("judge", 137),
        CheckerSlowError("judge", 20.0),
        CheckerRefusedError("unreadable", "No reply."),
    ],
)
def test_a_fault_of_the_checker_is_waited_out(error: CheckerError) -> None:
    assert find_delay(error) is Delay.MOMENT


@pytest.mark.parametrize("why", list(Why))
def test_a_refusal_is_waited_out_only_where_it_can_pass(why: Why) -> None:
    passing = {Why.AWAY, Why.RATE, Why.LAB, Why.SOURCE}
    is_waited_out = find_delay(CheckerRefusedError(why.value, "No.")) is Delay.MOMENT
    assert is_waited_out == (why in passing)


@pytest.mark.parametrize("why", [Why.REPLAY, Why.ATTEMPTS, Why.STEP, Why.SIZE])
def test_a_refusal_of_this_one_answer_is_for_good(why: Why) -> None:
    assert find_delay(CheckerRefusedError(why.value, "No.")) is Delay.EVER
