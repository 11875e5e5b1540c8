"""
The record of a marking: every mark with all that it rests on, a line each.

The tables are for people; the record is what tables and pages are made from, and what a
later marking is held against. It stays on the disk, and a mark is read when it is asked
for. It holds right answers' bands: it is not for students.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

import msgspec
from typing_extensions import override

from workbook.errors import AuthorError
from workbook.marking.result import SheetMark

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

#: The record's name in a folder of marks.
RECORD_FILE = "record.jsonl"


class MarkRecord(Mapping[tuple[str, str], SheetMark]):
    """
    The marks of a marking, by lab and student, in the order of the record.

    Parameters
    ----------
    path : Path
        The file.
    places : mapping of (str, str) to int
        Where the line of each lab and student begins [byte].
    """

    def __init__(self, path: Path, places: Mapping[tuple[str, str], int]) -> None:
        self.path = path
        self._places = places

    @override
    def __getitem__(self, key: tuple[str, str]) -> SheetMark:
        place = self._places[key]
        with self.path.open("rb") as file:
            file.seek(place)
            return msgspec.json.decode(file.readline(), type=SheetMark)

    @override
    def __iter__(self) -> Iterator[tuple[str, str]]:
        return iter(self._places)

    @override
    def __len__(self) -> int:
        return len(self._places)

    def walk(self) -> Iterator[SheetMark]:
        """
        Return all marks, read one behind the other.

        Returns
        -------
        iterator of SheetMark
            In the order of the record.

        Raises
        ------
        AuthorError
            If it can't be read any more.
        """
        return (mark for _, mark in _walk(self.path))


def write_record(path: Path, marks: Iterable[SheetMark]) -> MarkRecord:
    """
    Write a record, each mark as it comes.

    Parameters
    ----------
    path : Path
        The file; it is made anew.
    marks : iterable of SheetMark
        In the order of the record.

    Returns
    -------
    MarkRecord
        JSON in UTF-8, a sheet a line.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    places: dict[tuple[str, str], int] = {}
    place = 0
    with path.open("wb") as file:
        for mark in marks:
            places[mark.lab, mark.student] = place
            place += file.write(msgspec.json.encode(mark) + b"\n")
    return MarkRecord(path, places)


def open_record(folder: Path) -> MarkRecord:
    """
    Return the record in a folder of marks.

    Parameters
    ----------
    folder : Path
        What an earlier marking wrote.

    Returns
    -------
    MarkRecord
        Read through once: every line of it can be read.

    Raises
    ------
    AuthorError
        If there is no record, or a line of it is none.
    """
    path = folder / RECORD_FILE
    places = {(mark.lab, mark.student): place for place, mark in _walk(path)}
    return MarkRecord(path, places)


def read_record(folder: Path) -> tuple[SheetMark, ...]:
    """
    Return all marks that a folder of marks records, for a desk that shows them.

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
    return tuple(mark for _, mark in _walk(folder / RECORD_FILE))


def _walk(path: Path) -> Iterator[tuple[int, SheetMark]]:
    """Read each line, with where it begins."""
    place = 0
    try:
        with path.open("rb") as file:
            for number, line in enumerate(file, start=1):
                yield place, _read_line(path, number, line)
                place += len(line)
    except OSError as error:
        finding = (
            f"{path}: the record can't be read: {error.strerror}. Give a folder that "
            f"'workbook mark' wrote."
        )
        raise AuthorError((finding,)) from error


def _read_line(path: Path, number: int, line: bytes) -> SheetMark:
    try:
        return msgspec.json.decode(line, type=SheetMark)
    except msgspec.DecodeError as error:
        finding = (
            f"{path}:{number}: this is no line of a record: {error}. Mark the hand-ins "
            f"again to have a whole one."
        )
        raise AuthorError((finding,)) from error
