"""
Hand-ins to those that are marked, and a sentence for each other file.

Of a hand-in is kept only what says which one stands. It is read a second time where it
is marked, so that a large class needs little memory.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol

from workbook.errors import HandInError
from workbook.marking.acceptance import accept
from workbook.marking.document import read_hand_in
from workbook.marking.received import Clock

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import datetime

    from workbook.marking.acceptance import Expected
    from workbook.marking.entry import Entry
    from workbook.wire.handin import HandIn

_CHANGED = (
    "it was changed while the class was marked, so it was not marked. Mark again once "
    "nothing is written there."
)


@dataclass(frozen=True, slots=True)
class Accepted:
    """A hand-in that is marked."""

    #: The path of its file below the folder of hand-ins.
    name: str
    hand_in: HandIn
    #: A sentence, or the empty text.
    remark: str
    #: When it came in, by somebody else's clock than the student's; None where nobody
    #: says.
    received: datetime | None = None
    #: What is for staff alone.
    note: str = ""

    @property
    def at(self) -> datetime:
        """When it came in, by the time that counts."""
        return self.hand_in.at if self.received is None else self.received


class Piece(Protocol):
    """What may be a hand-in, and can be read at any time."""

    @property
    def name(self) -> str:
        """Its path below the folder of hand-ins, or what stands in its place."""

    def take(self) -> Accepted:
        """
        Read it.

        Returns
        -------
        Accepted
            A `HandInError` where it can't be marked.
        """


@dataclass(frozen=True, slots=True)
class FilePiece:
    """A file that may be a hand-in."""

    entry: Entry
    expected: Expected
    clock: Clock

    @property
    def name(self) -> str:
        """Its path below the folder of hand-ins."""
        return self.entry.name

    def take(self) -> Accepted:
        """
        Read it.

        Returns
        -------
        Accepted
            With the time that counts.

        Raises
        ------
        HandInError
            If it can't be marked in this course.
        """
        hand_in = read_hand_in(self.entry)
        remark = accept(hand_in, self.name, self.expected)
        received = self.clock.read(self.entry)
        note = self.clock.remark(hand_in.at, received)
        return Accepted(self.name, hand_in, remark, received, note)


@dataclass(frozen=True, slots=True)
class Found:
    """A hand-in that can be marked: where it lies, and what it was when it was seen."""

    piece: Piece
    lab: str
    student: str
    #: When it came in by the time that counts, and by its own.
    times: tuple[datetime, datetime]
    digest: str

    @property
    def name(self) -> str:
        """The path of its file below the folder of hand-ins."""
        return self.piece.name

    def take(self) -> Accepted:
        """
        Read it again.

        Returns
        -------
        Accepted
            The same as before.

        Raises
        ------
        HandInError
            If it is not the same any more.
        """
        try:
            accepted = self.piece.take()
        except HandInError as error:
            raise HandInError(self.name, _CHANGED) from error
        if _find(self.piece, accepted) != self:
            raise HandInError(self.name, _CHANGED)
        return accepted


@dataclass(slots=True)
class Gathered:
    """What became of every file."""

    #: One for each student and lab, in the order of labs and students.
    accepted: list[Found] = field(default_factory=list)
    #: Files that can't be marked.
    refused: list[HandInError] = field(default_factory=list)
    #: Files that a newer one of the same student and lab takes the place of.
    superseded: list[HandInError] = field(default_factory=list)

    def take(self) -> Iterator[Accepted]:
        """
        Read again what stands.

        Yields
        ------
        Accepted
            In the order of labs and students. What was changed meanwhile is left out,
            and put to what is refused.
        """
        for each in self.accepted:
            try:
                yield each.take()
            except HandInError as error:
                self.refused.append(_let_go(error))


#: Nobody's time but the student's own.
OWN_TIME = Clock()


def gather(
    entries: Iterable[Entry], expected: Expected, clock: Clock = OWN_TIME
) -> Gathered:
    """
    Return what can be marked, and why the rest can't.

    Parameters
    ----------
    entries : iterable of Entry
        What `list_entries` found.
    expected : Expected
        The course that is marked.
    clock : Clock
        Whose time counts.

    Returns
    -------
    Gathered
        The newest of each student and lab stands.
    """
    return gather_pieces(FilePiece(entry, expected, clock) for entry in entries)


def gather_pieces(pieces: Iterable[Piece]) -> Gathered:
    """
    Return what can be marked, wherever it lies, and why the rest can't.

    Parameters
    ----------
    pieces : iterable of Piece
        What may be hand-ins.

    Returns
    -------
    Gathered
        The newest of each student and lab stands.
    """
    found: dict[tuple[str, str], list[Found]] = {}
    gathered = Gathered()
    for piece in pieces:
        try:
            each = _find(piece, piece.take())
        except HandInError as error:
            gathered.refused.append(_let_go(error))
        else:
            found.setdefault((each.lab, each.student), []).append(each)
    for _, several in sorted(found.items()):
        newest = max(several, key=lambda one: (one.times, one.name))
        gathered.accepted.append(newest)
        gathered.superseded += _tell_older(several, newest)
    return gathered


def _find(piece: Piece, accepted: Accepted) -> Found:
    hand_in = accepted.hand_in
    lab, student = hand_in.sheet.lab, hand_in.sheet.student
    return Found(piece, lab, student, (accepted.at, hand_in.at), hand_in.digest)


def _let_go(error: HandInError) -> HandInError:
    """Return an error without its trace, which holds all that was read."""
    return HandInError(error.file, error.reason)


def _tell_older(several: list[Found], newest: Found) -> Iterator[HandInError]:
    for each in several:
        if each is not newest:
            yield HandInError(each.name, f"{newest.name} takes its place.")
