"""
One hand-in read from its file, with nothing taken on trust.

A file is looked at before it is opened, and its size before it is read, so that a
link, a pipe or a very large file costs nothing.
"""

from __future__ import annotations

import os
import stat
from typing import TYPE_CHECKING

import msgspec

from workbook.errors import HandInError
from workbook.marking.printable import to_printable
from workbook.wire.handin import HAND_IN_VERSION, HandIn

if TYPE_CHECKING:
    from pathlib import Path

#: The most that a hand-in may hold [byte]; a term's work is a hundredth of it.
MAX_SIZE = 2_000_000


class _Version(msgspec.Struct):
    """What every version of the form has in common."""

    version: int


def read_hand_in(path: Path, name: str) -> HandIn:
    """
    Return the hand-in that a file holds.

    Parameters
    ----------
    path : Path
        The file.
    name : str
        How it is called in a sentence.

    Returns
    -------
    HandIn
        Well formed, and no more: who handed it in is not checked.

    Raises
    ------
    HandInError
        If it is no regular file, too large, or no hand-in.
    """
    try:
        content = _read_bounded(path, name)
    except OSError as error:
        raise HandInError(name, f"it can't be read: {error.strerror}.") from error
    hand_in = _decode(content, name)
    times = (hand_in.at, *(attempt.at for attempt in hand_in.attempts))
    if any(time.tzinfo is None for time in times):
        reason = "a time in it has no time zone, so it was not written by the workbook."
        raise HandInError(name, reason)
    return hand_in


def _read_bounded(path: Path, name: str) -> bytes:
    if not stat.S_ISREG(path.lstat().st_mode):
        raise HandInError(name, "it is a link or no regular file, and is not opened.")
    # The file may be changed for a link or a pipe after it was looked at.
    handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
    with os.fdopen(handle, "rb") as file:
        status = os.fstat(handle)
        if not stat.S_ISREG(status.st_mode):
            raise HandInError(name, "it was changed while it was opened.")
        if status.st_size > MAX_SIZE:
            reason = (
                f"it has {status.st_size} bytes, and a hand-in at most {MAX_SIZE}; it "
                f"was not read."
            )
            raise HandInError(name, reason)
        return file.read(MAX_SIZE)


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
    except (msgspec.DecodeError, RecursionError) as error:
        raise HandInError(name, _explain(content)) from error
    reason = f"it has version {version}; version {HAND_IN_VERSION} is read here."
    raise HandInError(name, reason)


def _explain(content: bytes) -> str:
    if content.lstrip().startswith(b"{") and not content.rstrip().endswith(b"}"):
        return "it is cut short: it starts as a hand-in and stops in the middle."
    return "it is not JSON."
