"""One hand-in read from its content, with nothing taken on trust."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from workbook.errors import HandInError
from workbook.marking.printable import to_printable
from workbook.wire.handin import HAND_IN_VERSION, HandIn

if TYPE_CHECKING:
    from workbook.marking.entry import Entry

#: Years in which a course is held; at the ends of what a date can be, no time zone can
#: be changed for another.
_FIRST_YEAR, _LAST_YEAR = 2000, 2200


class _Version(msgspec.Struct):
    """What every version of the form has in common."""

    version: int


def read_hand_in(entry: Entry) -> HandIn:
    """
    Return the hand-in that a file holds.

    Parameters
    ----------
    entry : Entry
        The file.

    Returns
    -------
    HandIn
        Well formed, and no more: who handed it in is not checked.

    Raises
    ------
    HandInError
        If it is no regular file, too large, or no hand-in.
    """
    hand_in = _decode(entry.read(), entry.name)
    times = (hand_in.at, *(attempt.at for attempt in hand_in.attempts))
    if any(time.tzinfo is None for time in times):
        reason = "a time in it has no time zone, so it was not written by the workbook."
        raise HandInError(entry.name, reason)
    if any(not _FIRST_YEAR <= time.year < _LAST_YEAR for time in times):
        reason = "a time in it is of no year in which a course is held."
        raise HandInError(entry.name, reason)
    return hand_in


def _decode(content: bytes, name: str) -> HandIn:
    if not content.strip():
        raise HandInError(name, "it is empty.")
    try:
        version = msgspec.json.decode(content, type=_Version).version
        if version == HAND_IN_VERSION:
            return msgspec.json.decode(content, type=HandIn)
    except msgspec.ValidationError as error:
        reason = f"it is JSON, but no hand-in: {to_printable(str(error))}."
        raise HandInError(name, reason) from error
    except (msgspec.DecodeError, RecursionError, UnicodeDecodeError) as error:
        raise HandInError(name, _explain(content)) from error
    reason = f"it has version {version}; version {HAND_IN_VERSION} is read here."
    raise HandInError(name, reason)


def _explain(content: bytes) -> str:
    if content.lstrip().startswith(b"{") and not content.rstrip().endswith(b"}"):
        return "it is cut short: it starts as a hand-in and stops in the middle."
    return "it is not JSON."
