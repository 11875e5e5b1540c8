"""
The record of one part of a sheet: every attempt, every verdict, the latest drafts.

It is a file of JSON lines that only grows. A line that was cut short or damaged
costs itself and no other: it is left out, and its number is told. Two notebooks may
write to one file: each reads on before it answers, so both know all of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.client.journal import (
    Attempted,
    Declined,
    Drafted,
    Headed,
    Journal,
    Judged,
)
from workbook.errors import TaskError
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from workbook.client.journal import Line
    from workbook.wire.answer import Answer
    from workbook.wire.handin import Attempt
    from workbook.wire.sheet import SheetId
    from workbook.wire.verdict import Verdict


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
        self._sheet = sheet
        self._attempts: dict[str, Attempt] = {}
        self._verdicts: dict[str, Verdict] = {}
        self._contents: dict[str, Answer] = {}
        self._refusals: dict[str, str] = {}
        self._headed = False
        self._journal = Journal(path)
        #: Steps of which others wrote while this record was open.
        self.news: set[str] = set()
        self.read_on()
        self.news.clear()

    @property
    def name(self) -> str:
        """The file's name, for a sentence."""
        return self._journal.name

    @property
    def damaged(self) -> tuple[int, ...]:
        """Numbers of the lines that could not be read, from 1."""
        return self._journal.damaged

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """Every attempt, in the order of giving."""
        return tuple(self._attempts.values())

    @property
    def unjudged(self) -> tuple[Attempt, ...]:
        """The attempts that still wait for a verdict, oldest first."""
        settled = self._verdicts.keys() | self._refusals.keys()
        return tuple(a for a in self.attempts if a.id not in settled)

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

    def refusal(self, attempt_id: str) -> str:
        """
        Return why an attempt is not judged, and never will be.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.

        Returns
        -------
        str
            The checker's sentence; empty when it said none.
        """
        return self._refusals.get(attempt_id, "")

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
        self._append(Attempted(attempt))

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
        self._append(Judged(attempt_id, verdict, at))

    def add_refusal(self, attempt_id: str, reason: str, at: datetime) -> None:
        """
        Keep that an attempt is not taken; it is on the disk when this returns.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id` of what was refused.
        reason : str
            What the checker said.
        at : datetime
            When, with its time zone.

        Raises
        ------
        TaskError
            If it could not be written.
        """
        self._append(Declined(attempt_id, reason, at))

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
            self._append(Drafted(step, answer), is_forced=False)

    def read_on(self) -> None:
        """
        Take in what was written since, by whomever.

        Raises
        ------
        TaskError
            If the file can't be read, or belongs to another sheet.
        """
        for line, is_own in self._journal.read_on():
            step = self._take(line)
            if step and not is_own:
                self.news.add(step)

    def _take(self, line: Line) -> str | None:
        """Let a line change what is known, and return the step it speaks of."""
        about = ""
        match line:
            case Headed(sheet):
                self._check(sheet)
            case Attempted(attempt):
                self._attempts.setdefault(attempt.id, attempt)
                self._contents[attempt.step] = attempt.answer
                about = attempt.id
            case Judged(about, verdict):
                # An answer that the checker could not judge still waits for one.
                if verdict.outcome is not Outcome.NOT_JUDGED:
                    self._verdicts[about] = verdict
                    self._refusals.pop(about, None)
            case Declined(about, reason):
                self._refusals[about] = reason
            case Drafted(step, answer):
                self._contents[step] = answer
                return step
        told = self._attempts.get(about)
        return None if told is None else told.step

    def _check(self, sheet: SheetId) -> None:
        if sheet != self._sheet:
            msg = (
                f"{self.name} belongs to {_say(sheet)}, and the sheet in this folder "
                f"to {_say(self._sheet)}. Put each sheet in a folder of its own."
            )
            raise TaskError(msg)
        self._headed = True

    def _append(self, line: Line, *, is_forced: bool = True) -> None:
        if not self._headed:
            self._journal.append(Headed(self._sheet), is_forced=True)
        self._journal.append(line, is_forced=is_forced)
        self.read_on()


def _say(sheet: SheetId) -> str:
    return f"{sheet.lab!r} revision {sheet.revision} of student {sheet.student!r}"
