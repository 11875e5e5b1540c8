"""The records of both parts of a sheet: one is written here, the other is read."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING
from uuid import uuid4

from workbook.client.place import Part, locate_record
from workbook.client.record import Record
from workbook.client.standing import Standing
from workbook.errors import TaskError
from workbook.wire.answer import Noted
from workbook.wire.handin import Attempt
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.answer import Answer
    from workbook.wire.sheet import SheetId
    from workbook.wire.verdict import Verdict


_SHARED = (
    "This notebook is open in a second place as well. Both write to one record, so "
    "nothing is lost, and the latest answer to a step counts, wherever it was given. "
    "To see all of it here, run the notebook again."
)


class History:
    """
    What was answered on a sheet so far, by either notebook.

    Parameters
    ----------
    folder : Path
        Where both records lie.
    sheet : SheetId
        Whose and what it is.
    part : Part
        The half that this notebook holds, and whose record it writes.

    Raises
    ------
    TaskError
        If a record belongs to another sheet, or can't be read.
    """

    def __init__(self, folder: Path, sheet: SheetId, part: Part) -> None:
        (other,) = set(Part) - {part}
        self._sheet = sheet
        self._other = locate_record(folder, sheet, other)
        #: The record that this notebook writes.
        self.own = Record(locate_record(folder, sheet, part), sheet)
        #: That another notebook writes it too, in words; empty while none does.
        self.shared = ""

    @property
    def notices(self) -> tuple[str, ...]:
        """What is to be told of the record, in sentences; empty when nothing is."""
        damaged = (
            f"Line {number} of {self.own.name} is damaged and was left out; every "
            f"other line was read. See whether your last answer is there."
            for number in self.own.damaged
        )
        return (*damaged, *([self.shared] if self.shared else []))

    @property
    def unjudged(self) -> tuple[Attempt, ...]:
        """The attempts that wait for a verdict, those of the other part as well."""
        try:
            return tuple(a for record in self._records() for a in record.unjudged)
        except TaskError:
            # The other notebook tells what is wrong with its record.
            return self.own.unjudged

    def find_record(self, attempt: Attempt) -> Record:
        """
        Return the record that an attempt stands in.

        Parameters
        ----------
        attempt : Attempt
            Of either part.

        Returns
        -------
        Record
            The one of this part, or the other one as it is on the disk now.

        Raises
        ------
        TaskError
            If the other one can't be read.
        """
        is_own = any(each.id == attempt.id for each in self.own.attempts)
        return self.own if is_own else Record(self._other, self._sheet)

    def take_news(self) -> frozenset[str]:
        """
        Return the steps of which another notebook wrote, each time it did once.

        Returns
        -------
        frozenset of str
            Their ids; `shared` says why, from the first of them on.
        """
        news = frozenset(self.own.news)
        self.own.news.clear()
        if news:
            self.shared = _SHARED
        return news

    def gather(self) -> tuple[Attempt, ...]:
        """
        Return every attempt of both parts, in the order of giving.

        Returns
        -------
        tuple of Attempt
            As they are on the disk now, whoever wrote them.

        Raises
        ------
        TaskError
            If a record can't be read.
        """
        tries = [a for record in self._records() for a in record.attempts]
        return tuple(sorted(tries, key=lambda attempt: attempt.at))

    def stand(self) -> Standing:
        """
        Return the standing answers of both parts.

        Returns
        -------
        Standing
            As they are on the disk now, whoever wrote them.

        Raises
        ------
        TaskError
            If a record can't be read.
        """
        return Standing(self._records())

    def last(self, step: str) -> tuple[Attempt, Verdict | None] | None:
        """
        Return the latest attempt at a step of this part, with its verdict.

        Of a prediction it is the first that was taken, which is never replaced.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        tuple, or None
            The verdict is None while it is awaited; no tuple if nothing was tried.
        """
        tries = [a for a in self.own.attempts if a.step == step]
        if not tries:
            return None
        taken = (a for a in tries if _is_committed(self.own.verdict(a.id)))
        shown = next(taken, tries[-1])
        return shown, self.own.verdict(shown.id)

    def keep(self, step: str, answer: Answer) -> Attempt:
        """
        Keep an answer as an attempt, unless it is given twice in a row.

        Parameters
        ----------
        step : str
            The step's id.
        answer : Answer
            What is given now.

        Returns
        -------
        Attempt
            A new one, on the disk; or the one at which the answer was given before.

        Raises
        ------
        TaskError
            If it could not be written, or a record can't be read.
        """
        repeated = self.find_repeat(step, answer)
        if repeated is not None:
            return repeated
        attempt = Attempt(uuid4().hex, step, answer, datetime.now(UTC))
        self.own.add_attempt(attempt)
        return attempt

    def find_repeat(self, step: str, answer: Answer) -> Attempt | None:
        """
        Return the attempt at which an answer was given, when it is given again.

        Parameters
        ----------
        step : str
            The step's id.
        answer : Answer
            What is given now.

        Returns
        -------
        Attempt or None
            None if anything at all was tried in between, since the verdict may
            then be another.

        Raises
        ------
        TaskError
            If a record can't be read.
        """
        tries = self.gather()
        if tries and (tries[-1].step, tries[-1].answer) == (step, answer):
            return tries[-1]
        return None

    def find_commitment(self, step: str) -> Verdict | None:
        """
        Return what was said of a prediction that was made, by whichever notebook.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        Verdict or None
            None for any step that can still be answered.

        Raises
        ------
        TaskError
            If the record can't be read.
        """
        self.own.read_on()
        found = self.last(step)
        verdict = None if found is None else found[1]
        return verdict if _is_committed(verdict) else None

    def noted(self, step: str) -> Noted | None:
        """
        Return the student's own reading that is noted for a step of this part.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        Noted or None
            None for any other kind of step, and before it is noted.
        """
        return Standing((self.own,)).noted(step)

    def find_note(self, step: str, answer: Answer) -> Verdict | None:
        """
        Return what was said of a noted reading in whose place another can't stand.

        Parameters
        ----------
        step : str
            The step's id.
        answer : Answer
            What is given now.

        Returns
        -------
        Verdict or None
            None where nothing is noted, and for what sets out to change it.

        Raises
        ------
        TaskError
            If the record can't be read.
        """
        if not isinstance(answer, Noted) or answer.instead_of:
            return None
        self.own.read_on()
        standing = Standing((self.own,))
        return standing.verdict(step) if standing.noted(step) else None

    def _records(self) -> tuple[Record, Record]:
        self.own.read_on()
        return (self.own, Record(self._other, self._sheet))


def _is_committed(verdict: Verdict | None) -> bool:
    return verdict is not None and verdict.outcome is Outcome.COMMITTED
