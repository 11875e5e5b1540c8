"""Making the file that a student submits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import msgspec

from workbook.client.place import Paper, name_papers
from workbook.client.transport import ask_in_reach
from workbook.errors import CheckerError, TaskError
from workbook.store import write_new
from workbook.wire.handin import Attempt, HandIn, compose_hand_in
from workbook.wire.message import Sealed, SealHandIn

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from workbook.client.transport import Checker
    from workbook.wire.sheet import SheetId

#: How many digits of the digest a receipt shows: enough to tell two files apart.
_SHOWN_DIGITS = 8


@dataclass(frozen=True)
class Receipt:
    """What a student is told of a hand-in that was written."""

    #: The file.
    path: Path
    #: When it was written, with its time zone.
    at: datetime
    #: The first digits of its digest.
    mark: str
    #: How many answers it holds.
    attempts: int
    #: False when no checker could seal it; it counts all the same.
    is_sealed: bool
    #: When a checker that keeps a record took it, by the checker's own clock.
    received: datetime | None = None
    #: How many answers could not be sent to the checker before [-].
    unsent: int = 0


def build(sheet: SheetId, attempts: tuple[Attempt, ...], at: datetime) -> HandIn:
    """
    Return a hand-in that is not sealed yet.

    Parameters
    ----------
    sheet : SheetId
        Whose and what it is.
    attempts : tuple of Attempt
        Of both parts, in any order.
    at : datetime
        When it is written, with its time zone.

    Returns
    -------
    HandIn
        With the attempts in the order of giving, each once.
    """
    once = {attempt.id: attempt for attempt in attempts}
    ordered = tuple(sorted(once.values(), key=lambda attempt: attempt.at))
    return compose_hand_in(sheet, ordered, at)


@dataclass(frozen=True)
class Sealing:
    """A hand-in, and when it was taken."""

    #: With the checker's seal, if the checker could be reached.
    hand_in: HandIn
    #: By the clock of a checker that keeps a record; None from any other.
    received: datetime | None = None


def seal(hand_in: HandIn, checker: Checker) -> Sealing:
    """
    Return the hand-in with the checker's seal, or as it is when there is none.

    Parameters
    ----------
    hand_in : HandIn
        As `build` made it.
    checker : Checker
        Who can seal.

    Returns
    -------
    Sealing
        With a seal if the checker could be reached.
    """
    question = SealHandIn(hand_in.sheet, hand_in.digest)
    try:
        said = ask_in_reach(checker, question, task="seal a hand-in")
    except CheckerError:
        return Sealing(hand_in)
    if not isinstance(said, Sealed):
        return Sealing(hand_in)
    return Sealing(msgspec.structs.replace(hand_in, seal=said.seal), said.at)


def save(sealing: Sealing, folder: Path, *, unsent: int = 0) -> Receipt:
    """
    Write a hand-in beside the earlier ones, and touch none of them.

    Parameters
    ----------
    sealing : Sealing
        What is submitted.
    folder : Path
        Where to.
    unsent : int
        How many of its answers could not be sent to the checker before [-].

    Returns
    -------
    Receipt
        What was written.

    Raises
    ------
    TaskError
        If it can't be written; nothing is left behind.
    """
    hand_in = sealing.hand_in
    content = msgspec.json.format(msgspec.json.encode(hand_in), indent=1)
    names = name_papers(hand_in.sheet, Paper.HAND_IN)
    try:
        path = write_new(folder, names, content + b"\n")
    except OSError as error:
        msg = f"The hand-in can't be written to this folder: {error.strerror}."
        raise TaskError(msg) from error
    return Receipt(
        path=path,
        at=hand_in.at,
        mark=hand_in.digest[:_SHOWN_DIGITS],
        attempts=len(hand_in.attempts),
        is_sealed=hand_in.seal != "",
        received=sealing.received,
        unsent=unsent,
    )
