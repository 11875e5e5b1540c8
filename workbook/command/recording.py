"""A service's record, as it is marked and archived: its sheets, read one at a time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.checker.door import reach_record
from workbook.marking.recorded import RecordedSheet

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from workbook.marking.recorded import ReadSheet
    from workbook.wire.sheet import SheetId


@dataclass(frozen=True, slots=True)
class Recording:
    """What a record holds of a course."""

    #: By lab, student and revision.
    sheets: Sequence[SheetId]
    #: Gives what is recorded of one of them.
    read: ReadSheet


def reach_recording(address: str, course: str, labs: Iterable[str]) -> Recording:
    """
    Return what a service's record holds of a course.

    Parameters
    ----------
    address : str
        Of the record's database.
    course : str
        The course's name.
    labs : iterable of str
        The names of its labs.

    Returns
    -------
    Recording
        As it stands now; the service may go on meanwhile.

    Raises
    ------
    TaskError
        If there is no record that can be read.
    CheckerRefusedError
        If the database can't be reached.
    """
    view = reach_record(address).view()

    def read(sheet: SheetId) -> RecordedSheet:
        times = tuple(each.at for each in view.hand_ins(sheet))
        return RecordedSheet(sheet, view.attempts(sheet), times)

    return Recording([s for lab in labs for s in view.sheets(course, lab)], read)
