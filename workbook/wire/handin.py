"""The file that a student submits: what they answered and when, nothing judged."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from datetime import datetime
from typing import TypeAlias

import msgspec
from msgspec import Struct

from workbook.wire.answer import Answer
from workbook.wire.sheet import SheetId

#: The version that this package writes.
HAND_IN_VERSION = 1

#: Gives the checker's seal of a sheet and a digest.
Sealer: TypeAlias = Callable[[SheetId, str], str]


class Attempt(Struct, frozen=True, forbid_unknown_fields=True):
    """One answer to one step, with its time."""

    #: Unique in the sheet; a repeated one counts once.
    id: str
    step: str
    answer: Answer
    #: When it was given, with its time zone.
    at: datetime


class HandIn(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Everything that a student answered on one sheet."""

    version: int
    sheet: SheetId
    #: In the order of giving.
    attempts: tuple[Attempt, ...]
    #: When it was written, with its time zone.
    at: datetime
    #: What `digest` gave for the rest.
    digest: str
    #: The checker's seal of the digest; empty when no checker could be reached.
    seal: str


def digest(sheet: SheetId, attempts: tuple[Attempt, ...], at: datetime) -> str:
    """
    Return the fingerprint of a hand-in's content.

    Parameters
    ----------
    sheet : SheetId
        Whose and what it is.
    attempts : tuple of Attempt
        In the order of giving.
    at : datetime
        When the hand-in was written.

    Returns
    -------
    str
        SHA-256 of the canonical JSON, 64 hexadecimal digits.
    """
    content = msgspec.json.encode((sheet, attempts, at), order="sorted")
    return hashlib.sha256(content).hexdigest()


def compose_hand_in(
    sheet: SheetId,
    attempts: tuple[Attempt, ...],
    at: datetime,
    seal: Sealer | None = None,
) -> HandIn:
    """
    Return a hand-in that fits its content.

    Parameters
    ----------
    sheet : SheetId
        Whose and what it is.
    attempts : tuple of Attempt
        In the order of giving.
    at : datetime
        When it is written, with its time zone.
    seal : callable, optional
        Gives the checker's seal of a sheet and a digest; without it the hand-in is not
        sealed.

    Returns
    -------
    HandIn
        Of the version that this package writes.
    """
    mark = digest(sheet, attempts, at)
    return HandIn(
        version=HAND_IN_VERSION,
        sheet=sheet,
        attempts=attempts,
        at=at,
        digest=mark,
        seal=seal(sheet, mark) if seal else "",
    )
