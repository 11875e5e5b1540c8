"""From what came across the border, whatever it is, to a reply."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from workbook.wire.message import (
    MESSAGE_VERSION,
    Refused,
    Reply,
    Statement,
    Why,
    read_head,
    read_request,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.wire.message import Question

_NO_REQUEST = "This is not a request."
_OTHER_VERSION = (
    "The notebook speaks version {theirs}, the checker version {ours}. Restart the "
    "kernel; if that does not help, ask your instructor."
)


def reply_to(answer: Callable[[Question], Statement], line: bytes) -> Reply:
    """
    Return the reply to one line.

    Parameters
    ----------
    answer : callable
        Gives the statement for a question.
    line : bytes
        As it came.

    Returns
    -------
    Reply
        A refusal if the line is no request, or of another version.
    """
    number = 0
    try:
        head = read_head(line)
        number = head.number
        if head.version != MESSAGE_VERSION:
            reason = _OTHER_VERSION.format(theirs=head.version, ours=MESSAGE_VERSION)
            refused = Refused(Why.VERSION, reason)
            return Reply(MESSAGE_VERSION, number, refused)
        question = read_request(line).question
    except (msgspec.DecodeError, UnicodeDecodeError):
        refused = Refused(Why.REQUEST, _NO_REQUEST)
        return Reply(MESSAGE_VERSION, number, refused)
    return Reply(MESSAGE_VERSION, number, answer(question))
