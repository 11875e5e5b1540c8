"""The student's folder: where the sheet, the records and the hand-ins lie."""

from __future__ import annotations

import re
from enum import Enum
from itertools import chain, count
from typing import TYPE_CHECKING

import msgspec

from workbook.errors import TaskError
from workbook.wire.sheet import SHEET_VERSION, Sheet, SheetId

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

#: The file that holds a student's sheet.
SHEET_FILE = "sheet.json"

#: A name of a lab or student that can stand in a file's name.
_PLAIN = re.compile(r"[\w-][\w.-]*")


class Part(Enum):
    """The half of a sheet that one notebook holds."""

    PRELAB = "prelab"
    POSTLAB = "postlab"


class Paper(Enum):
    """A file that a student makes: to submit, and to print."""

    HAND_IN = "handin.json"
    REPORT = "report.html"


class _Version(msgspec.Struct):
    """What every version of the sheet's form has in common."""

    version: int


def read_sheet(folder: Path) -> Sheet | None:
    """
    Return the sheet that lies in a folder.

    Parameters
    ----------
    folder : Path
        The student's folder.

    Returns
    -------
    Sheet or None
        None when the folder has no sheet.

    Raises
    ------
    TaskError
        If there is one that can't be read.
    """
    try:
        text = (folder / SHEET_FILE).read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        msg = f"{SHEET_FILE} can't be read: {error.strerror}."
        raise TaskError(msg) from error
    try:
        version = msgspec.json.decode(text, type=_Version).version
        if version == SHEET_VERSION:
            return msgspec.json.decode(text, type=Sheet)
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        msg = f"{SHEET_FILE} is damaged ({error}). Fetch it again, as it was issued."
        raise TaskError(msg) from error
    msg = (
        f"{SHEET_FILE} has version {version}, and this workbook reads version "
        f"{SHEET_VERSION}. Install the release that your course names."
    )
    raise TaskError(msg)


def locate_record(folder: Path, sheet: SheetId, part: Part) -> Path:
    """
    Return the place of the record of one part of a sheet.

    Parameters
    ----------
    folder : Path
        The student's folder.
    sheet : SheetId
        Whose and what it is.
    part : Part
        Which notebook writes it.

    Returns
    -------
    Path
        ``<lab>-<part>.attempts.jsonl`` in the folder.

    Raises
    ------
    TaskError
        If the lab's name can't stand in a file's name.
    """
    return folder / f"{_plain(sheet.lab)}-{part.value}.attempts.jsonl"


def locate_readings(folder: Path, sheet: SheetId) -> Path:
    """
    Return the place of the readings that were shown once the gate was passed.

    Parameters
    ----------
    folder : Path
        The student's folder.
    sheet : SheetId
        Whose and what it is.

    Returns
    -------
    Path
        ``<lab>.readings.json`` in the folder.

    Raises
    ------
    TaskError
        If the lab's name can't stand in a file's name.
    """
    return folder / f"{_plain(sheet.lab)}.readings.json"


def name_papers(sheet: SheetId, paper: Paper) -> Iterator[str]:
    """
    Return the names for a student's papers of one kind, first to last, without end.

    Parameters
    ----------
    sheet : SheetId
        Whose and what it is.
    paper : Paper
        Of which kind.

    Returns
    -------
    iterator of str
        ``<student>.handin.json``, then ``<student>-2.handin.json``, and so on.

    Raises
    ------
    TaskError
        If the student's id can't stand in a file's name.
    """
    student = _plain(sheet.student)
    later = (f"{student}-{number}.{paper.value}" for number in count(2))
    return chain((f"{student}.{paper.value}",), later)


def _plain(name: str) -> str:
    if not _PLAIN.fullmatch(name):
        msg = (
            f"{name!r} can't stand in a file's name. Letters, digits, '-', '_' and "
            f"'.' can. Ask for a sheet that was issued under such a name."
        )
        raise TaskError(msg)
    return name
