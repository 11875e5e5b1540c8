"""
The answers of a sheet that wait for their verdicts, and how they are sent.

They go in the order in which they were given, those of both notebooks, so that a
checker that keeps a record has that order as well. Only one that has failed twice goes
last, since it may be the reason: so it holds nothing else up.

A generator gives the questions and takes what is said. It is driven by the kernel's own
thread while a student waits for a verdict, and with threads of its own where nobody
does.
"""

from __future__ import annotations

import asyncio
import time
from datetime import UTC, datetime
from typing import TYPE_CHECKING, TypeAlias

from workbook.client.delay import Delay, find_delay
from workbook.client.renewal import renew_verdicts
from workbook.client.transport import LIMIT_S
from workbook.client.wait import Wait, say_kept
from workbook.errors import (
    CheckerAwayError,
    CheckerDiedError,
    CheckerError,
    CheckerSlowError,
    TaskError,
)
from workbook.wire.message import JudgeAttempt, Judged
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Generator

    from workbook.client.history import History
    from workbook.client.transport import Checker
    from workbook.wire.handin import Attempt
    from workbook.wire.message import Statement
    from workbook.wire.sheet import SheetId

    #: What came of a question.
    Said: TypeAlias = Statement | CheckerError

_TASK = "judge an answer"

#: Why one was not sent whose turn came too late for whoever waits.
_TOO_LATE = "the answers before this one took long"


class Outbox:
    """
    What waits for a verdict.

    Parameters
    ----------
    history : History
        The records of both parts of the sheet.
    checker : Checker
        Who judges.
    sheet : SheetId
        Whose and what it is.
    """

    def __init__(self, history: History, checker: Checker, sheet: SheetId) -> None:
        self._history = history
        self._checker = checker
        self._sheet = sheet
        #: What is said of those that wait.
        self.wait = Wait()
        #: How long what was sent last has to wait, where it has no verdict.
        self.delay = Delay.MOMENT
        #: Called with a step's id whenever there is something new to say of it.
        self.on_news: Callable[[str], None] = _ignore
        #: Called whenever answers have to wait.
        self.on_wait: Callable[[], object] = _wait

    @property
    def waiting(self) -> list[Attempt]:
        """The attempts of both parts that wait, in the order in which they go."""
        found = self._history.unjudged
        return sorted(found, key=lambda a: (self.wait.is_hard(a.id), a.at))

    def send(self, wanted: Attempt | None = None) -> None:
        """
        Send what waits, as long as verdicts come and whoever waits has patience.

        Nothing else can be done in the notebook meanwhile.

        Parameters
        ----------
        wanted : Attempt or None
            One for whose verdict somebody waits.
        """
        steps = self._send(wanted)
        end_s = time.monotonic() + self._checker.patience_s
        try:
            question = next(steps)
            while True:
                question = steps.send(self._put(question, end_s - time.monotonic()))
        except StopIteration:
            return

    async def send_aside(self) -> None:
        """Send what waits, as long as verdicts come, and hold nothing up meanwhile."""
        steps = self._send(None)
        try:
            question = next(steps)
            while True:
                said = await asyncio.to_thread(self._put, question, LIMIT_S)
                question = steps.send(said)
        except StopIteration:
            return

    async def is_in_reach(self) -> bool:
        """
        Tell whether the checker is there, and hold nothing up meanwhile.

        Returns
        -------
        bool
            False if a question would be in vain.
        """
        return not await asyncio.to_thread(self._checker.look)

    def _put(self, question: JudgeAttempt, limit_s: float) -> Said:
        if limit_s <= 0:
            return CheckerAwayError(_TASK, _TOO_LATE)
        try:
            return self._checker.ask(question, task=_TASK, limit_s=limit_s)
        except CheckerError as error:
            return error

    def _send(self, wanted: Attempt | None) -> Generator[JudgeAttempt, Said, None]:
        """Send each attempt that waits, and stop where the checker can't go on."""
        queue = self.waiting
        if wanted is not None and wanted not in queue:
            queue.append(wanted)
        for place, attempt in enumerate(queue):
            verdict = yield from self._ask(attempt)
            self._keep(attempt, verdict, was_sent_again=attempt != wanted)
            if verdict.outcome is Outcome.NOTED:
                yield from renew_verdicts(self._history, self._ask, self.on_news)
            elif verdict.outcome is Outcome.NOT_JUDGED:
                if self.delay is Delay.EVER:
                    continue
                self._hold(queue[place + 1 :], verdict.sentence)
                return

    def _ask(self, attempt: Attempt) -> Generator[JudgeAttempt, Said, Verdict]:
        """Ask for one verdict as the answers stand now; "not judged" if none comes."""
        self.delay = Delay.MOMENT
        try:
            standing = self._history.stand().answers
        except TaskError as error:
            return self._put_off(attempt, str(error))
        standing.pop(attempt.step, None)
        said = yield JudgeAttempt(
            self._sheet, attempt.step, attempt.answer, standing, attempt.id
        )
        if isinstance(said, Judged):
            return said.verdict
        if not isinstance(said, CheckerError):
            return self._put_off(attempt, "The checker did not answer with a verdict.")
        self.delay = find_delay(said)
        if isinstance(said, CheckerDiedError | CheckerSlowError):
            self.wait.fail(attempt.id)
        return self._put_off(attempt, str(said))

    def _keep(
        self, attempt: Attempt, verdict: Verdict, *, was_sent_again: bool
    ) -> None:
        """Keep what became of an attempt, and tell whoever listens."""
        now = datetime.now(UTC)
        try:
            record = self._history.find_record(attempt)
            if verdict.outcome is not Outcome.NOT_JUDGED:
                record.add_verdict(attempt.id, verdict, now)
                self.wait.end(attempt.id, now, was_sent_again=was_sent_again)
            elif self.delay is Delay.EVER:
                record.add_refusal(attempt.id, verdict.sentence, now)
        except TaskError as error:
            self._put_off(attempt, f"The verdict can't be kept: {error}")
        self.on_news(attempt.step)

    def _put_off(self, attempt: Attempt, reason: str) -> Verdict:
        said = say_kept(reason, self.delay)
        self.wait.put_off(attempt.id, said)
        return Verdict(Outcome.NOT_JUDGED, said)

    def _hold(self, rest: list[Attempt], reason: str) -> None:
        """Say of all that come after one that has to wait that they wait as well."""
        for attempt in rest:
            self.wait.put_off(attempt.id, reason)
            self.on_news(attempt.step)
        self.on_wait()


def _ignore(step: str) -> None:
    """Do nothing: nobody listens yet."""


def _wait() -> None:
    """Do nothing: whoever opened the sheet has it sent again."""
