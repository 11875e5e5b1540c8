"""A service's record, as it is marked and archived: its sheets, read one at a time."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from workbook.checker.door import reach_record
from workbook.errors import TaskError
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
        Of the record's database, or the folder of it in an unpacked archive.
    course : str
        The course's name.
    labs : iterable of str
        The names of its labs.

    Returns
    -------
    Recording
        As it stands now; a service may go on meanwhile.

    Raises
    ------
    TaskError
        If there is no record that can be read.
    CheckerRefusedError
        If the database can't be reached.
    """
    if Path(address).is_dir():
        return _open_folder(Path(address), course, labs)
    view = reach_record(address).view()

    def read(sheet: SheetId) -> RecordedSheet:
        times = tuple(each.at for each in view.hand_ins(sheet))
        return RecordedSheet(sheet, view.attempts(sheet), times)

    return Recording([s for lab in labs for s in view.sheets(course, lab)], read)


def _open_folder(folder: Path, course: str, labs: Iterable[str]) -> Recording:
    """Return what an archive holds of a record: a file for each sheet."""
    paths = {_read_sheet(path).sheet: path for path in folder.rglob("*.json")}

    def read(sheet: SheetId) -> RecordedSheet:
        return _read_sheet(paths[sheet])

    sheets = sorted(paths, key=lambda sheet: (sheet.student, sheet.revision))
    asked = [s for lab in labs for s in sheets if (s.course, s.lab) == (course, lab)]
    return Recording(asked, read)


def _read_sheet(path: Path) -> RecordedSheet:
    try:
        return msgspec.json.decode(path.read_bytes(), type=RecordedSheet)
    except (OSError, msgspec.DecodeError, UnicodeDecodeError) as error:
        msg = f"{path} is no sheet of a record: {error}. Unpack the archive again."
        raise TaskError(msg) from error
