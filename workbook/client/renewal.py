"""Verdicts asked for anew, because a reading of the student's own was noted."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from workbook.errors import TaskError
from workbook.wire.answer import Noted
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from workbook.client.session import Session
    from workbook.wire.handin import Attempt

#: What rests on no reading, and is not judged again.
_SETTLED = frozenset({Outcome.COMMITTED, Outcome.KEPT})


def renew_verdicts(session: Session) -> None:
    """
    Ask anew for the verdicts that may rest on the student's own readings.

    Parameters
    ----------
    session : Session
        Whose standing answers are judged again, those that came too early among them;
        whoever listens is told of each verdict that is another now.
    """
    for attempt in _list_standing(session):
        verdict = session.ask(attempt)
        if verdict.outcome is Outcome.NOT_JUDGED:
            return
        if verdict == session.history.own.verdict(attempt.id):
            continue
        try:
            session.history.own.add_verdict(attempt.id, verdict, datetime.now(UTC))
        except TaskError:
            return
        session.on_verdict(attempt.step)


def _list_standing(session: Session) -> list[Attempt]:
    """List the latest real attempt at each step, in the order of giving."""
    latest: dict[str, Attempt] = {}
    for attempt in session.history.own.attempts:
        verdict = session.history.own.verdict(attempt.id)
        if verdict is None or isinstance(attempt.answer, Noted):
            continue
        is_real = verdict.outcome not in NO_ATTEMPT - {Outcome.EARLY}
        if is_real and verdict.outcome not in _SETTLED:
            latest[attempt.step] = attempt
    return sorted(latest.values(), key=lambda attempt: attempt.at)
