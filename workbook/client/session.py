"""One notebook's talk with a checker over one part of a sheet."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from workbook.client import handin
from workbook.client.history import History
from workbook.client.outbox import Outbox
from workbook.client.place import Part, read_sheet
from workbook.client.standing import Standing
from workbook.client.transport import ask_in_reach
from workbook.errors import CheckerRefusedError, TaskError
from workbook.wire.message import Opened, OpenSheet
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.client.transport import Checker
    from workbook.wire.answer import Answer
    from workbook.wire.handin import Attempt
    from workbook.wire.sheet import Sheet, Step

#: For programs: the checker can't make a practice sheet.
_NO_SHEET = "no sheet"

_NOT_KEPT = (
    "What you type is not kept until that is put right; leave this page open till then."
)


class Session:
    """
    Everything that the cards of one notebook do beyond showing.

    Parameters
    ----------
    sheet : Sheet
        What the student may see.
    part : Part
        Which half this notebook holds.
    folder : Path
        Where the records of both halves lie.
    checker : Checker
        Who judges.

    Raises
    ------
    TaskError
        If a record in the folder belongs to another sheet, or can't be read.
    """

    def __init__(
        self, sheet: Sheet, part: Part, folder: Path, checker: Checker
    ) -> None:
        self.sheet = sheet
        self.part = part
        #: False for a practice sheet, which nobody waits for.
        self.is_issued = True
        #: Called with a step's id whenever `last` has something new to say of it.
        self.on_verdict: Callable[[str], None] = _ignore
        #: Where everything of the student's lies.
        self.folder = folder
        #: Who judges.
        self.checker = checker
        #: What was answered so far.
        self.history = History(folder, sheet.id, part)
        #: What waits for a verdict.
        self.outbox = Outbox(self.history, checker, sheet.id)
        self.outbox.on_news = self._tell

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps of this part, in order."""
        is_prelab = self.part is Part.PRELAB
        return self.sheet.prelab if is_prelab else self.sheet.postlab

    @property
    def right(self) -> int:
        """How many steps of this part are done [-]."""
        standing = Standing((self.history.own,))
        return sum(standing.is_right(step.id) for step in self.steps)

    def last(self, step: str) -> tuple[Answer, Verdict] | None:
        """
        Return the latest attempt at a step with what is to be shown of it.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        tuple of Answer and Verdict, or None
            None when the step was never tried.
        """
        found = self.history.last(step)
        if found is None:
            return None
        attempt, verdict = found
        return attempt.answer, verdict or self._explain(attempt)

    def tell_late(self, step: str) -> str:
        """
        Return when the verdict on the latest attempt at a step came that had to wait.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        str
            A sentence; empty where it did not have to wait, or still does.
        """
        found = self.history.last(step)
        return "" if found is None else self.outbox.wait.tell_end(found[0].id)

    def submit(self, step: str, answer: Answer) -> Verdict:
        """
        Keep an answer, ask for its verdict, keep that too, and return it.

        Parameters
        ----------
        step : str
            The step's id.
        answer : Answer
            What the student gave.

        Returns
        -------
        Verdict
            "Not judged", with the reason, when no verdict could be had; of a
            prediction or a reading of their own that was made already, what was said
            of it then.
        """
        try:
            fixed = self.history.find_commitment(step)
            fixed = fixed or self.history.find_note(step, answer)
            if fixed is not None:
                return fixed
            attempt = self.history.keep(step, answer)
        except TaskError as error:
            return _not_judged(f"{error} Your answer was not kept, and not sent.")
        is_judged = self.history.own.verdict(attempt.id) is not None
        self.outbox.send(None if is_judged else attempt)
        self._tell_news()
        return self.history.own.verdict(attempt.id) or self._explain(attempt)

    def keep_draft(self, step: str, answer: Answer) -> str:
        """
        Keep what stands in a card, though it was not checked.

        Parameters
        ----------
        step : str
            The step's id.
        answer : Answer
            What stands there.

        Returns
        -------
        str
            Why that was not possible; empty when it was.
        """
        try:
            self.history.own.add_draft(step, answer)
        except TaskError as error:
            return f"{error} {_NOT_KEPT}"
        self._tell_news()
        return ""

    def send_again(self) -> None:
        """Ask for the verdicts that are still missing, as long as they come."""
        self.outbox.send()

    def hand_in(self) -> handin.Receipt:
        """
        Write everything that was answered on both parts to a file to submit.

        Returns
        -------
        Receipt
            What was written.

        Raises
        ------
        TaskError
            If the sheet is for practice, or the file can't be written.
        """
        if not self.is_issued:
            msg = "This sheet is for practice, so there is nothing to hand in."
            raise TaskError(msg)
        self.send_again()
        made = handin.build(self.sheet.id, self.history.gather(), datetime.now(UTC))
        sealing = handin.seal(made, self.checker)
        return handin.save(sealing, self.folder, unsent=len(self.outbox.waiting))

    def close(self) -> None:
        """Let go of the checker."""
        self.checker.close()

    def _tell_news(self) -> None:
        """Tell whoever listens of what another notebook wrote."""
        for step in sorted(self.history.take_news()):
            self.on_verdict(step)

    def _explain(self, attempt: Attempt) -> Verdict:
        """Say why an attempt has no verdict."""
        refusal = self.history.own.refusal(attempt.id)
        return _not_judged(refusal or self.outbox.wait.explain(attempt.id))

    def _tell(self, step: str) -> None:
        self.on_verdict(step)


def open_session(folder: Path, part: Part, checker: Checker) -> Session:
    """
    Open the sheet of a folder, or a fresh one for practice where there is none.

    Parameters
    ----------
    folder : Path
        The student's folder.
    part : Part
        Which half is wanted.
    checker : Checker
        Who judges, and who makes a practice sheet.

    Returns
    -------
    Session
        With everything that was kept in the folder.

    Raises
    ------
    TaskError
        If the sheet or a record can't be read, or no place for a practice sheet made.
    CheckerDiedError
        If a practice sheet is wanted, and the checker ended.
    CheckerSlowError
        If it did not make one in time.
    CheckerRefusedError
        If it makes none.
    """
    sheet = read_sheet(folder)
    if sheet is not None:
        return Session(sheet, part, folder, checker)
    return open_practice(part, checker)


def open_practice(part: Part, checker: Checker) -> Session:
    """
    Open a practice sheet with values that nobody has had before.

    Parameters
    ----------
    part : Part
        Which half is wanted.
    checker : Checker
        Who makes the sheet, and judges.

    Returns
    -------
    Session
        With nothing answered yet.

    Raises
    ------
    TaskError
        If no place for it can be made.
    CheckerDiedError
        If the checker ended.
    CheckerSlowError
        If it did not make one in time.
    CheckerRefusedError
        If it makes none.
    """
    said = ask_in_reach(checker, OpenSheet(None), task="make a practice sheet")
    if not isinstance(said, Opened):
        raise CheckerRefusedError(_NO_SHEET, "The checker made no practice sheet.")
    session = Session(said.sheet, part, _make_aside(), checker)
    session.is_issued = False
    return session


def _make_aside() -> Path:
    """Return a folder for a record that nobody needs later."""
    try:
        return Path(tempfile.mkdtemp(prefix="workbook-practice-"))
    except OSError as error:
        msg = f"No folder can be made for a practice sheet: {error.strerror}."
        raise TaskError(msg) from error


def _not_judged(sentence: str) -> Verdict:
    return Verdict(Outcome.NOT_JUDGED, sentence)


def _ignore(step: str) -> None:
    """Do nothing: nobody listens yet."""
