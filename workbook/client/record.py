"""
The record of one part of a sheet: every attempt, every verdict, the latest drafts.

It is a file of JSON lines that only grows. A line that was cut short or damaged
costs itself and no other: it is left out, and its number is told.
"""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, TypeAlias

import msgspec
from msgspec import Struct

from workbook.errors import TaskError
from workbook.store import append_line
from workbook.wire.answer import Answer
from workbook.wire.handin import Attempt
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path


class _Headed(Struct, frozen=True, forbid_unknown_fields=True, tag="sheet"):
    """The sheet that the following lines belong to."""

    sheet: SheetId


class _Attempted(Struct, frozen=True, forbid_unknown_fields=True, tag="attempt"):
    attempt: Attempt


class _Judged(Struct, frozen=True, forbid_unknown_fields=True, tag="verdict"):
    #: `Attempt.id` of what was judged.
    attempt: str
    verdict: Verdict
    at: datetime


class _Drafted(Struct, frozen=True, forbid_unknown_fields=True, tag="draft"):
    """What stands in a card and was not checked yet."""

    step: str
    answer: Answer


_Line: TypeAlias = _Headed | _Attempted | _Judged | _Drafted
_line = msgspec.json.Decoder(_Line)


class Record:
    """
    Attempts, verdicts and drafts of one part, on disk and in memory.

    Parameters
    ----------
    path : Path
        The file; it is made when the first line is written.
    sheet : SheetId
        Whose and what it is.

    Raises
    ------
    TaskError
        If the file belongs to another sheet, or can't be opened.
    """

    def __init__(self, path: Path, sheet: SheetId) -> None:
        self._path = path
        self._sheet = sheet
        self._attempts: dict[str, Attempt] = {}
        self._verdicts: dict[str, Verdict] = {}
        self._contents: dict[str, Answer] = {}
        self._headed = False
        #: Numbers of the lines that could not be read, from 1.
        self.damaged: tuple[int, ...] = ()
        self._load()

    @property
    def name(self) -> str:
        """The file's name, for a sentence."""
        return self._path.name

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """Every attempt, in the order of giving."""
        return tuple(self._attempts.values())

    @property
    def unjudged(self) -> tuple[Attempt, ...]:
        """The attempts that have no verdict yet, oldest first."""
        return tuple(a for a in self.attempts if a.id not in self._verdicts)

    def verdict(self, attempt_id: str) -> Verdict | None:
        """
        Return the verdict on an attempt.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.

        Returns
        -------
        Verdict or None
            None while it was not judged.
        """
        return self._verdicts.get(attempt_id)

    def content(self, step: str) -> Answer | None:
        """
        Return what last stood in a step's card, checked or not.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        Answer or None
            None when nothing was ever put there.
        """
        return self._contents.get(step)

    def add_attempt(self, attempt: Attempt) -> None:
        """
        Keep an attempt; it is on the disk when this returns.

        Parameters
        ----------
        attempt : Attempt
            With an id that no other attempt of the sheet has.

        Raises
        ------
        TaskError
            If it could not be written.
        """
        self._append(_Attempted(attempt))

    def add_verdict(self, attempt_id: str, verdict: Verdict, at: datetime) -> None:
        """
        Keep a verdict; it is on the disk when this returns.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id` of what was judged.
        verdict : Verdict
            What the checker said.
        at : datetime
            When, with its time zone.

        Raises
        ------
        TaskError
            If it could not be written.
        """
        self._append(_Judged(attempt_id, verdict, at))

    def add_draft(self, step: str, answer: Answer) -> None:
        """
        Keep what stands in a card now, unless that is kept already.

        A draft is not forced to the disk: it is written at every key.

        Parameters
        ----------
        step : str
            The step's id.
        answer : Answer
            What stands there.

        Raises
        ------
        TaskError
            If it could not be written.
        """
        if self._contents.get(step) != answer:
            self._append(_Drafted(step, answer), is_forced=False)

    def _load(self) -> None:
        try:
            lines = self._path.read_bytes().split(b"\n")
        except FileNotFoundError:
            return
        except OSError as error:
            msg = f"{self.name} can't be read: {error.strerror}."
            raise TaskError(msg) from error
        damaged = []
        for number, line in enumerate(lines, start=1):
            try:
                if line.strip():
                    self._take(_line.decode(line))
            except msgspec.DecodeError:
                damaged.append(number)
        self.damaged = tuple(damaged)

    def _take(self, line: _Line) -> None:
        """Let a line of the file change what is known."""
        match line:
            case _Headed(sheet):
                self._head(sheet)
            case _Attempted(attempt):
                self._attempts.setdefault(attempt.id, attempt)
                self._contents[attempt.step] = attempt.answer
            case _Judged(attempt_id, verdict):
                # An answer that the checker could not judge still waits for one.
                if verdict.outcome is not Outcome.NOT_JUDGED:
                    self._verdicts[attempt_id] = verdict
            case _Drafted(step, answer):
                self._contents[step] = answer

    def _head(self, sheet: SheetId) -> None:
        if sheet != self._sheet:
            msg = (
                f"{self.name} belongs to {_say(sheet)}, and the sheet in this folder "
                f"to {_say(self._sheet)}. Put each sheet in a folder of its own."
            )
            raise TaskError(msg)
        self._headed = True

    def _append(self, line: _Line, *, is_forced: bool = True) -> None:
        try:
            if not self._headed:
                head = msgspec.json.encode(_Headed(self._sheet))
                append_line(self._path, head, is_forced=True)
                self._headed = True
            append_line(self._path, msgspec.json.encode(line), is_forced=is_forced)
        except OSError as error:
            msg = f"{self.name} can't be written: {error.strerror}."
            raise TaskError(msg) from error
        self._take(line)


def _say(sheet: SheetId) -> str:
    return f"{sheet.lab!r} revision {sheet.revision} of student {sheet.student!r}"
