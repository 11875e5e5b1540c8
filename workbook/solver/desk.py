"""What a solver answers to each question, whatever way it came."""

from __future__ import annotations

import sys
import threading
from functools import lru_cache
from typing import TYPE_CHECKING

from workbook.errors import CheckerRefusedError, WorkbookError
from workbook.judge.explained import explain
from workbook.judge.gate import find_missing
from workbook.judge.judge import judge
from workbook.judge.noted import settle
from workbook.solver.practice import PracticeSource
from workbook.wire.message import (
    Explained,
    ExplainStep,
    Held,
    JudgeAttempt,
    Judged,
    Opened,
    OpenSheet,
    Passed,
    PassGate,
    Question,
    Refused,
    Sealed,
    SealHandIn,
    Statement,
    Why,
)
from workbook.wire.verdict import NO_ATTEMPT

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.solver.source import Source
    from workbook.wire.answer import Answer
    from workbook.wire.sheet import SheetId

#: How many cases are kept [-]: a lab for every student of a large course.
MOST_CASES = 4096

#: What a student reads when a file that they must not see has a mistake.
_MISTAKE = (
    "The checker found a mistake in its own files, and can't judge. Your answers are "
    "kept. Tell your instructor."
)


class Desk:
    """
    A solver with its source; it keeps the cases that it drew last.

    Parameters
    ----------
    source : Source
        Where cases come from.
    tell : callable, optional
        Takes an error that is not for students; it is written to the error stream
        unless said.

    Notes
    -----
    Several threads may ask: one question is answered after the other, since a process
    judges no faster by judging two at once.
    """

    def __init__(
        self, source: Source, tell: Callable[[WorkbookError], None] | None = None
    ) -> None:
        self._source = source
        self._tell = tell or write_error
        self._case = lru_cache(MOST_CASES)(source.case)
        self._turn = threading.Lock()

    def answer(self, question: Question) -> Statement:
        """
        Return the statement that answers a question.

        Parameters
        ----------
        question : Question
            As it came across the border.

        Returns
        -------
        Statement
            A refusal where the question can't be answered; never an exception of ours.
        """
        try:
            with self._turn:
                return self._answer(question)
        except WorkbookError as error:
            return refuse(error, self._tell)

    def list_steps(self, sheet: SheetId) -> frozenset[str]:
        """
        Return the steps of a sheet.

        Parameters
        ----------
        sheet : SheetId
            Of this source, and of the lab's present revision.

        Returns
        -------
        frozenset of str
            Their ids.

        Raises
        ------
        CheckerRefusedError
            If the sheet is of another course, lab, revision or student.
        DrawError
            If the student gets no fair values.
        """
        with self._turn:
            public = self._case(sheet).graph.lab.public
        return frozenset(ask.id for ask in public.asks)

    def _answer(self, question: Question) -> Statement:
        match question:
            case OpenSheet(sheet):
                said = self._practise() if sheet is None else self._open(sheet)
            case JudgeAttempt():
                said = self._judge(question)
            case SealHandIn(sheet=sheet, digest=digest):
                self._case(sheet)
                said = Sealed(self._source.seal(sheet, digest))
            case PassGate(sheet=sheet, standing=standing):
                said = self._pass(sheet, standing)
            case _:
                said = self._explain(question)
        return said

    def _open(self, sheet: SheetId) -> Statement:
        return Opened(self._source.show(sheet, self._case(sheet)))

    def _practise(self) -> Statement:
        if not isinstance(self._source, PracticeSource):
            reason = "This checker serves a course; open a notebook beside its sheet."
            return Refused(Why.PRACTICE, reason)
        return self._open(self._source.fresh())

    def _judge(self, question: JudgeAttempt) -> Statement:
        case = self._case(question.sheet)
        if question.step not in {ask.id for ask in case.graph.lab.public.asks}:
            reason = f"{question.step!r} is no step of this sheet."
            return Refused(Why.STEP, reason)
        answers = {**question.standing, question.step: question.answer}
        return Judged(judge(case, question.step, answers))

    def _explain(self, question: ExplainStep) -> Statement:
        if not isinstance(self._source, PracticeSource):
            reason = "A worked answer is shown on a practice sheet, never in a course."
            return Refused(Why.PRACTICE, reason)
        standing = question.standing
        attempt = JudgeAttempt(question.sheet, question.step, question.answer, standing)
        judged = self._judge(attempt)
        if not isinstance(judged, Judged):
            return judged
        if judged.verdict.outcome in NO_ATTEMPT:
            reason = "Try the step first: the worked answer comes after an attempt."
            return Refused(Why.ATTEMPT, reason)
        answers = {**standing, question.step: question.answer}
        case = settle(self._case(question.sheet), answers)
        return Explained(explain(case, question.step))

    def _pass(self, sheet: SheetId, standing: Mapping[str, Answer]) -> Statement:
        case = self._case(sheet)
        missing = find_missing(case, standing)
        if missing and not self._source.is_permitted(sheet):
            return Held(missing)
        return Passed(self._source.show_readings(sheet, case))


def write_error(error: WorkbookError) -> None:
    """
    Write an error to the error stream of the checker's process.

    Parameters
    ----------
    error : WorkbookError
        Its sentence may quote a relation or name a folder.
    """
    sys.stderr.write(f"{error}\n")


def refuse(
    error: WorkbookError, tell: Callable[[WorkbookError], None] = write_error
) -> Refused:
    """
    Return what a student is told when a question can't be answered.

    Parameters
    ----------
    error : WorkbookError
        What went wrong. Only a refusal is meant for students.
    tell : callable, optional
        Takes any other error, which never crosses the border.

    Returns
    -------
    Refused
        In words that give nothing away.
    """
    if isinstance(error, CheckerRefusedError):
        return Refused(Why(error.code), error.reason)
    tell(error)
    return Refused(Why.LAB, _MISTAKE)
