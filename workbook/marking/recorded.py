"""
Sheets of a service's record to those that are marked, as if each had been handed in.

Times are the service's. Where a student handed in, what was answered until the last
hand-in counts; where nobody did, all of it does, as of the last answer.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, TypeAlias

from msgspec import Struct

from workbook.errors import HandInError
from workbook.marking.acceptance import accept
from workbook.marking.gather import Accepted, Gathered, gather_pieces
from workbook.wire.handin import Attempt, compose_hand_in
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.marking.acceptance import Expected
    from workbook.wire.handin import HandIn, Sealer

_OPEN = "It was not handed in: what the record holds of it is marked."

_LATER = "Answers that came after it was handed in are not marked: {number}."


class RecordedSheet(Struct, frozen=True, forbid_unknown_fields=True):
    """What a service's record holds of one sheet."""

    sheet: SheetId
    #: In the order of receiving, with that time.
    attempts: tuple[Attempt, ...]
    #: When it was handed in; empty where it was not.
    handed_in: tuple[datetime, ...] = ()

    @property
    def name(self) -> str:
        """What stands in the place of a file's name."""
        return name_sheet(self.sheet)

    def compose(self, seal: Sealer) -> HandIn:
        """
        Return it as a hand-in.

        Parameters
        ----------
        seal : callable
            Gives the course's seal of a sheet and a digest.

        Returns
        -------
        HandIn
            With what counts of it.

        Raises
        ------
        HandInError
            If there is nothing to mark.
        """
        times = self.handed_in or tuple(each.at for each in self.attempts)
        if not times:
            raise HandInError(self.name, "it was neither answered nor handed in.")
        at = max(times)
        counted = tuple(each for each in self.attempts if each.at <= at)
        return compose_hand_in(self.sheet, counted, at, seal)


#: Gives what a record holds of a sheet now.
ReadSheet: TypeAlias = Callable[[SheetId], RecordedSheet]


@dataclass(frozen=True, slots=True)
class RecordPiece:
    """A sheet of a service's record."""

    sheet: SheetId
    read: ReadSheet
    expected: Expected
    seal: Sealer

    @property
    def name(self) -> str:
        """What stands in the place of a file's name."""
        return name_sheet(self.sheet)

    def take(self) -> Accepted:
        """
        Read it, as if it had been handed in.

        Returns
        -------
        Accepted
            With the service's time.

        Raises
        ------
        HandInError
            If it can't be marked in this course.
        """
        recorded = self.read(self.sheet)
        hand_in = recorded.compose(self.seal)
        remark = accept(hand_in, self.name, self.expected)
        if not recorded.handed_in:
            remark = _OPEN
        later = len(recorded.attempts) - len(hand_in.attempts)
        note = _LATER.format(number=later) if later else ""
        return Accepted(self.name, hand_in, remark, hand_in.at, note)


def name_sheet(sheet: SheetId) -> str:
    """
    Return what stands in the place of a file's name.

    Parameters
    ----------
    sheet : SheetId
        A sheet of a record.

    Returns
    -------
    str
        Student and lab.
    """
    return f"{sheet.student}/{sheet.lab}"


def gather_recorded(
    sheets: Iterable[SheetId], read: ReadSheet, expected: Expected, seal: Sealer
) -> Gathered:
    """
    Return what can be marked of a record, and why the rest can't.

    Parameters
    ----------
    sheets : iterable of SheetId
        One for each student and lab.
    read : callable
        Gives what the record holds of a sheet.
    expected : Expected
        The course that is marked.
    seal : callable
        Gives the course's seal of a sheet and a digest.

    Returns
    -------
    Gathered
        In the order of labs and students.
    """
    return gather_pieces(RecordPiece(s, read, expected, seal) for s in sheets)
