"""Verdicts asked for anew, because a reading of the student's own was noted."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, TypeVar

from workbook.errors import TaskError
from workbook.wire.answer import Noted
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from collections.abc import Callable, Generator

    from workbook.client.history import History
    from workbook.wire.handin import Attempt
    from workbook.wire.message import JudgeAttempt
    from workbook.wire.verdict import Verdict

Said = TypeVar("Said")

#: What rests on no reading, and is not judged again.
_SETTLED = frozenset({Outcome.COMMITTED, Outcome.KEPT})


def renew_verdicts(
    history: History,
    ask: Callable[[Attempt], Generator[JudgeAttempt, Said, Verdict]],
    tell: Callable[[str], None],
) -> Generator[JudgeAttempt, Said, None]:
    """
    Ask anew for the verdicts that may rest on the student's own readings.

    Parameters
    ----------
    history : History
        Whose standing answers are judged again, those that came too early among them.
    ask : callable
        Gives the questions about an attempt, and returns its verdict.
    tell : callable
        Called with the step of each verdict that is another now.

    Yields
    ------
    JudgeAttempt
        A question; what is said to it is sent back.
    """
    for attempt in _list_standing(history):
        verdict = yield from ask(attempt)
        if verdict.outcome is Outcome.NOT_JUDGED:
            return
        if verdict == history.own.verdict(attempt.id):
            continue
        try:
            history.own.add_verdict(attempt.id, verdict, datetime.now(UTC))
        except TaskError:
            return
        tell(attempt.step)


def _list_standing(history: History) -> list[Attempt]:
    """List the latest real attempt at each step, in the order of giving."""
    latest: dict[str, Attempt] = {}
    for attempt in history.own.attempts:
        verdict = history.own.verdict(attempt.id)
        if verdict is None or isinstance(attempt.answer, Noted):
            continue
        is_real = verdict.outcome not in NO_ATTEMPT - {Outcome.EARLY}
        if is_real and verdict.outcome not in _SETTLED:
            latest[attempt.step] = attempt
    return sorted(latest.values(), key=lambda attempt: attempt.at)
