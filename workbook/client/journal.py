"""The lines of a record: what each says, written and read back one by one."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, TypeAlias

import msgspec
from msgspec import Struct

from workbook.client.tail import Tail
from workbook.errors import TaskError
from workbook.store import append_line
from workbook.wire.answer import Answer
from workbook.wire.handin import Attempt
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


class Headed(Struct, frozen=True, forbid_unknown_fields=True, tag="sheet"):
    """The sheet that the following lines belong to."""

    sheet: SheetId


class Attempted(Struct, frozen=True, forbid_unknown_fields=True, tag="attempt"):
    """An answer that was to be checked."""

    attempt: Attempt


class Judged(Struct, frozen=True, forbid_unknown_fields=True, tag="verdict"):
    """What the checker said."""

    #: `Attempt.id` of what was judged.
    attempt: str
    verdict: Verdict
    at: datetime


class Declined(Struct, frozen=True, forbid_unknown_fields=True, tag="declined"):
    """That the checker will never judge an attempt, and why."""

    #: `Attempt.id` of what was not taken.
    attempt: str
    reason: str
    at: datetime


class Drafted(Struct, frozen=True, forbid_unknown_fields=True, tag="draft"):
    """What stands in a card and was not checked yet."""

    step: str
    answer: Answer


Line: TypeAlias = Headed | Attempted | Judged | Declined | Drafted
_line: msgspec.json.Decoder[Line] = msgspec.json.Decoder(Line)

#: What the content of a line that is none raises.
_UNREADABLE = (msgspec.DecodeError, UnicodeDecodeError, RecursionError)


class Journal:
    """
    A file of JSON lines that only grows, and that others may write to as well.

    Parameters
    ----------
    path : Path
        The file; it is made when the first line is written.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._tail = Tail(path)
        self._damaged: set[int] = set()
        self._own: set[bytes] = set()

    @property
    def name(self) -> str:
        """The file's name, for a sentence."""
        return self._path.name

    @property
    def damaged(self) -> tuple[int, ...]:
        """Numbers of the lines that could not be read, from 1."""
        return tuple(sorted(self._damaged))

    def append(self, line: Line, *, is_forced: bool) -> None:
        """
        Write a line at the end.

        Parameters
        ----------
        line : Line
            What it says.
        is_forced : bool
            True to return only when it is on the disk.

        Raises
        ------
        TaskError
            If it could not be written.
        """
        try:
            content = msgspec.json.encode(line)
            # Known before it is written: it may be there although that failed.
            self._own.add(content)
            append_line(self._path, content, is_forced=is_forced)
        except OSError as error:
            msg = f"{self.name} can't be written: {error.strerror}."
            raise TaskError(msg) from error
        except UnicodeEncodeError as error:
            msg = "What was typed holds half a character. Delete it, and type it again."
            raise TaskError(msg) from error

    def read_on(self) -> Iterator[tuple[Line, bool]]:
        """
        Give the lines that were not given yet, damaged ones left out.

        Returns
        -------
        iterator of tuple
            What a line says, and whether it was written here.

        Raises
        ------
        TaskError
            If the file can't be read.
        """
        try:
            for number, content in self._tail.read_on():
                self._damaged.discard(number)
                line = self._read(number, content)
                if line is not None:
                    yield line, content in self._own
        except OSError as error:
            msg = f"{self.name} can't be read: {error.strerror}."
            raise TaskError(msg) from error

    def _read(self, number: int, content: bytes) -> Line | None:
        if not content.strip():
            return None
        try:
            return _line.decode(content)
        except _UNREADABLE:
            self._damaged.add(number)
            return None
