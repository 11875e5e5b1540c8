"""Hand-ins to those that are marked, and a sentence for each other file."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

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


@dataclass(slots=True)
class Gathered:
    """What became of every file."""

    #: One for each student and lab, in the order of labs and students.
    accepted: list[Accepted] = field(default_factory=list)
    #: Files that can't be marked.
    refused: list[HandInError] = field(default_factory=list)
    #: Files that a newer one of the same student and lab takes the place of.
    superseded: list[HandInError] = field(default_factory=list)


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
    found: dict[tuple[str, str], list[Accepted]] = {}
    gathered = Gathered()
    for entry in entries:
        try:
            each = _take(entry, expected, clock)
        except HandInError as error:
            gathered.refused.append(error)
        else:
            sheet = each.hand_in.sheet
            found.setdefault((sheet.lab, sheet.student), []).append(each)
    for _, several in sorted(found.items()):
        newest = max(several, key=lambda one: (one.at, one.hand_in.at, one.name))
        gathered.accepted.append(newest)
        gathered.superseded += _tell_older(several, newest)
    return gathered


def _take(entry: Entry, expected: Expected, clock: Clock) -> Accepted:
    hand_in = read_hand_in(entry)
    remark = accept(hand_in, entry.name, expected)
    received = clock.read(entry)
    note = clock.remark(hand_in.at, received)
    return Accepted(entry.name, hand_in, remark, received, note)


def _tell_older(several: list[Accepted], newest: Accepted) -> Iterator[HandInError]:
    for each in several:
        if each is not newest:
            yield HandInError(each.name, f"{newest.name} takes its place.")
