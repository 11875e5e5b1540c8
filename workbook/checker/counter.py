"""
What a service answers to a caller: their own sheets alone, and by its own record.

An attempt is recorded before it is judged. What stands on the sheet beside it is worked
out from the record, whatever the question says of it.
"""

from __future__ import annotations

import re
from contextlib import suppress
from typing import TYPE_CHECKING

import msgspec

from workbook.checker.log import tell_fault
from workbook.client.standing import takes_place
from workbook.errors import CheckerRefusedError, WorkbookError
from workbook.labfile.attempt import find_limits
from workbook.solver.desk import Desk, refuse
from workbook.wire.handin import Attempt
from workbook.wire.message import (
    JudgeAttempt,
    Judged,
    PassGate,
    Refused,
    Sealed,
    SealHandIn,
    Why,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from datetime import datetime

    from workbook.checker.caller import Caller
    from workbook.checker.record import AttemptRecord
    from workbook.checker.tried import Try
    from workbook.solver.source import CourseSource
    from workbook.wire.answer import Answer
    from workbook.wire.message import Question, Statement
    from workbook.wire.sheet import SheetId
    from workbook.wire.verdict import Outcome

#: An attempt's id, and the digest of a hand-in: SHA-256 in hexadecimal.
_ID = re.compile(r"[A-Za-z0-9_-]{1,64}")
_DIGEST = re.compile(r"[0-9a-f]{64}")

#: No person types so much into one step [character].
MOST_IN_ANSWER = 32_000

_OTHERS = "This sheet is not yours: open the notebook from your own folder."
_NAMELESS = "An attempt without its own name can't be recorded."
_NO_DIGEST = "This is not the fingerprint of a hand-in."
_LONG = "This answer is too long to be kept; shorten it."
_NO_STEP = "{step!r} is no step of this sheet."


class Counter:
    """
    A solver with its record, and who may ask it what.

    Parameters
    ----------
    desk : Desk
        Knows the answers.
    record : AttemptRecord
        What was tried.
    limits : mapping of str to mapping of str to int
        How many attempts a step takes, by lab and step [-]; a step that is left out
        takes any number.
    clock : callable
        Gives the time, with its zone.
    """

    def __init__(
        self,
        desk: Desk,
        record: AttemptRecord,
        limits: Mapping[str, Mapping[str, int]],
        clock: Callable[[], datetime],
    ) -> None:
        self._desk = desk
        self._record = record
        self._limits = limits
        self._clock = clock

    def answer(self, caller: Caller, question: Question) -> Statement:
        """
        Return the statement that answers a caller's question.

        Parameters
        ----------
        caller : Caller
            Who asks.
        question : Question
            As it came.

        Returns
        -------
        Statement
            A refusal where the question can't be answered; never an exception of ours.
        """
        try:
            return self._answer(caller, question)
        except WorkbookError as error:
            return refuse(error, tell_fault)

    def _answer(self, caller: Caller, question: Question) -> Statement:
        sheet = question.sheet
        if sheet is not None and not caller.owns(sheet):
            return Refused(Why.CALLER, _OTHERS)
        match question:
            case JudgeAttempt():
                said = self._judge(question)
            case SealHandIn(sheet=own, digest=digest):
                said = self._seal(own, digest)
            case PassGate(sheet=own):
                self._desk.list_steps(own)
                standing = self._stand(own, self._record.tries(own))
                said = self._desk.answer(PassGate(own, standing))
            case _:
                said = self._desk.answer(question)
        return said

    def _judge(self, question: JudgeAttempt) -> Statement:
        sheet, step, answer = question.sheet, question.step, question.answer
        if not _ID.fullmatch(question.attempt):
            return Refused(Why.REQUEST, _NAMELESS)
        if step not in self._desk.list_steps(sheet):
            return Refused(Why.STEP, _NO_STEP.format(step=step))
        if len(msgspec.json.encode(answer)) > MOST_IN_ANSWER:
            return Refused(Why.SIZE, _LONG)
        tries = self._take(
            sheet, Attempt(question.attempt, step, answer, self._clock())
        )
        standing = self._stand(sheet, tries, but=question.attempt)
        return self._say(sheet, question.attempt, step, {**standing, step: answer})

    def _seal(self, sheet: SheetId, digest: str) -> Statement:
        if not _DIGEST.fullmatch(digest):
            return Refused(Why.REQUEST, _NO_DIGEST)
        self._desk.list_steps(sheet)
        at = self._record.take_hand_in(sheet, digest, self._clock())
        said = self._desk.answer(SealHandIn(sheet, digest))
        return Sealed(said.seal, at) if isinstance(said, Sealed) else said

    def _take(self, sheet: SheetId, attempt: Attempt) -> tuple[Try, ...]:
        most = self._limits.get(sheet.lab, {}).get(attempt.step, 0)
        try:
            return self._record.take(sheet, attempt, most)
        except CheckerRefusedError as error:
            if error.code != Why.ATTEMPTS.value:
                raise
        # One that was never judged, since a process ended or is still at it, counted
        # till now: it may turn out to be no attempt.
        self._stand(sheet, self._record.tries(sheet))
        return self._record.take(sheet, attempt, most)

    def _stand(
        self, sheet: SheetId, tries: Iterable[Try], *, but: str = ""
    ) -> dict[str, Answer]:
        """Work out the standing answers, all but one attempt's own."""
        answers: dict[str, Answer] = {}
        outcomes: dict[str, Outcome] = {}
        for each in tries:
            if each.id == but or not each.counts:
                continue
            answer, outcome = each.answer, each.outcome
            if outcome is None:
                beside = {**answers, each.step: answer}
                said = self._say(sheet, each.id, each.step, beside)
                if not isinstance(said, Judged):
                    continue
                outcome = said.verdict.outcome
            if takes_place(outcomes.get(each.step), answer, outcome):
                answers[each.step], outcomes[each.step] = answer, outcome
        return answers

    def _say(
        self, sheet: SheetId, attempt: str, step: str, answers: Mapping[str, Answer]
    ) -> Statement:
        """Judge an attempt beside the standing answers, and note the outcome."""
        others = {name: each for name, each in answers.items() if name != step}
        said = self._desk.answer(JudgeAttempt(sheet, step, answers[step], others))
        if isinstance(said, Judged):
            # The attempt itself is kept; its outcome can be worked out again.
            with suppress(CheckerRefusedError):
                self._record.note(sheet, attempt, said.verdict.outcome)
        return said


def serve_course(
    source: CourseSource, record: AttemptRecord, clock: Callable[[], datetime]
) -> Counter:
    """
    Return what answers the callers of a course.

    Parameters
    ----------
    source : CourseSource
        The course, with its key.
    record : AttemptRecord
        What was tried.
    clock : callable
        Gives the time, with its zone.

    Returns
    -------
    Counter
        With the limits of the course file.
    """
    attempts = source.course.marks.attempts
    limits = {
        name: find_limits(attempts, lab.public) for name, lab in source.labs.items()
    }
    return Counter(Desk(source, tell_fault), record, limits, clock)
