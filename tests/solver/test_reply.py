"""Whatever comes gets a reply: the answer, or why there is none."""

from __future__ import annotations

import pytest

from workbook.solver.reply import reply_to
from workbook.wire.message import (
    MESSAGE_VERSION,
    OpenSheet,
    Question,
    Refused,
    Reply,
    Request,
    Sealed,
    Statement,
    Why,
    encode,
)

SEALED = Sealed("3f")


def answer(question: Question) -> Statement:
    """Answer one question, and no other."""
    assert question == OpenSheet(None)
    return SEALED


def test_a_request_gets_the_answer_under_its_number() -> None:
    line = encode(Request(MESSAGE_VERSION, 7, OpenSheet(None)))
    assert reply_to(answer, line) == Reply(MESSAGE_VERSION, 7, SEALED)


@pytest.mark.parametrize(
    ("line", "number", "why"),
    [
        (b"", 0, Why.REQUEST),
        (b"hello", 0, Why.REQUEST),
        (b'{"version": 2, "number": 7}', 7, Why.REQUEST),
        (b'{"version": 9, "number": 7, "new": 1}', 7, Why.VERSION),
    ],
)
def test_what_cannot_be_answered_is_refused(line: bytes, number: int, why: Why) -> None:
    reply = reply_to(answer, line)
    assert (reply.version, reply.number) == (MESSAGE_VERSION, number)
    assert isinstance(reply.statement, Refused)
    assert reply.statement.why is why
