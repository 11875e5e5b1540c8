"""
The record of a marking: every mark with all that it rests on, a line each.

The tables are for people; the record is what pages are made from, and what a later
marking is held against. It holds right answers' bands: it is not for students.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from workbook.errors import AuthorError
from workbook.marking.result import SheetMark

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

#: The record's name in a folder of marks.
RECORD_FILE = "record.jsonl"


def encode_record(marks: Iterable[SheetMark]) -> bytes:
    """
    Return the content of a record.

    Parameters
    ----------
    marks : iterable of SheetMark
        In the order of the record.

    Returns
    -------
    bytes
        JSON in UTF-8, a sheet a line.
    """
    return b"".join(msgspec.json.encode(mark) + b"\n" for mark in marks)


def read_record(folder: Path) -> tuple[SheetMark, ...]:
    """
    Return the marks that a folder of marks records.

    Parameters
    ----------
    folder : Path
        What an earlier marking wrote.

    Returns
    -------
    tuple of SheetMark
        In the order of the record.

    Raises
    ------
    AuthorError
        If there is no record, or a line of it is none.
    """
    path = folder / RECORD_FILE
    try:
        lines = path.read_bytes().splitlines()
    except OSError as error:
        finding = (
            f"{path}: the record can't be read: {error.strerror}. Give a folder that "
            f"'workbook mark' wrote."
        )
        raise AuthorError((finding,)) from error
    return tuple(_read_line(path, *each) for each in enumerate(lines, start=1))


def _read_line(path: Path, number: int, line: bytes) -> SheetMark:
    try:
        return msgspec.json.decode(line, type=SheetMark)
    except msgspec.DecodeError as error:
        finding = (
            f"{path}:{number}: this is no line of a record: {error}. Mark the hand-ins "
            f"again to have a whole one."
        )
        raise AuthorError((finding,)) from error
