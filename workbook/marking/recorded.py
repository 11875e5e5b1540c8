"""
Sheets of a service's record to those that are marked, as if each had been handed in.

Times are the service's. Where a student handed in, what was answered until the last
hand-in counts; where nobody did, all of it does, as of the last answer.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import HandInError
from workbook.marking.acceptance import accept
from workbook.marking.gather import Accepted, Gathered
from workbook.wire.handin import compose_hand_in

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from workbook.marking.acceptance import Expected
    from workbook.wire.handin import Attempt, HandIn, Sealer
    from workbook.wire.sheet import SheetId

_OPEN = "It was not handed in: what the record holds of it is marked."

_LATER = "Answers that came after it was handed in are not marked: {number}."


@dataclass(frozen=True, slots=True)
class RecordedSheet:
    """What a service's record holds of one sheet."""

    sheet: SheetId
    #: In the order of receiving, with that time.
    attempts: tuple[Attempt, ...]
    #: When it was handed in; empty where it was not.
    handed_in: tuple[datetime, ...] = ()

    @property
    def name(self) -> str:
        """What stands in the place of a file's name."""
        return f"{self.sheet.student}/{self.sheet.lab}"

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


def gather_recorded(
    sheets: Iterable[RecordedSheet],
    expected: Expected,
    seal: Sealer,
) -> Gathered:
    """
    Return what can be marked of a record, and why the rest can't.

    Parameters
    ----------
    sheets : iterable of RecordedSheet
        One for each student and lab.
    expected : Expected
        The course that is marked.
    seal : callable
        Gives the course's seal of a sheet and a digest.

    Returns
    -------
    Gathered
        In the order of labs and students.
    """
    gathered = Gathered()
    for each in sorted(sheets, key=lambda one: (one.sheet.lab, one.sheet.student)):
        try:
            gathered.accepted.append(_take(each, expected, seal))
        except HandInError as error:
            gathered.refused.append(error)
    return gathered


def _take(recorded: RecordedSheet, expected: Expected, seal: Sealer) -> Accepted:
    hand_in = recorded.compose(seal)
    remark = accept(hand_in, recorded.name, expected)
    if not recorded.handed_in:
        remark = _OPEN
    later = len(recorded.attempts) - len(hand_in.attempts)
    note = _LATER.format(number=later) if later else ""
    return Accepted(recorded.name, hand_in, remark, hand_in.at, note)
