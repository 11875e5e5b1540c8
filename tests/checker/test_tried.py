"""What a record holds."""

from __future__ import annotations

import pytest

from tests.support.soap import NOON
from workbook.checker.tried import Try
from workbook.wire.answer import Typed
from workbook.wire.handin import Attempt
from workbook.wire.verdict import Outcome

CONTENT = '{"type":"typed","text":"1 g"}'


def test_a_try_is_an_attempt_of_the_time_at_which_it_was_received() -> None:
    made = Try("x", "dish", CONTENT, NOON)
    assert made.to_attempt() == Attempt("x", "dish", Typed("1 g"), NOON)


@pytest.mark.parametrize(
    ("outcome", "counts"),
    [
        (Outcome.RIGHT, True),
        (Outcome.WRONG, True),
        (Outcome.UNREAD, False),
        (Outcome.EARLY, False),
        (None, True),
    ],
)
def test_what_cannot_be_read_counts_for_nothing(
    outcome: Outcome | None, *, counts: bool
) -> None:
    assert Try("x", "dish", CONTENT, NOON, outcome).counts is counts
