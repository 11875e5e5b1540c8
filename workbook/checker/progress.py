"""How far a class has come, counted where the record lies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, or_, select

from workbook.checker.tables import ATTEMPT
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from collections.abc import Collection
    from datetime import datetime

    from sqlalchemy import Connection

#: What a count is made for: one step of one student's sheet.
_STEP = (ATTEMPT.c.revision, ATTEMPT.c.student, ATTEMPT.c.step)

#: What is an attempt, or may yet turn out to be one.
_COUNTS = or_(
    ATTEMPT.c.outcome.is_(None),
    ATTEMPT.c.outcome.not_in([outcome.value for outcome in NO_ATTEMPT]),
)


@dataclass(frozen=True, slots=True)
class Progress:
    """How far one student has come with one step."""

    sheet: SheetId
    step: str
    #: How many attempts there were [-]; what can't be read is none.
    attempts: int
    #: What was said of the latest; None where it is not judged.
    outcome: Outcome | None
    #: When the latest was received.
    at: datetime


def count_progress(
    connection: Connection, course: str, lab: str, students: Collection[str] | None
) -> tuple[Progress, ...]:
    """
    Return how far each student has come with each step of a lab.

    Parameters
    ----------
    connection : Connection
        To a record.
    course : str
        The course's name.
    lab : str
        The lab's name.
    students : collection of str or None
        Of whom it is told; None for all.

    Returns
    -------
    tuple of Progress
        One for each step that a student really attempted, in the order of their first
        attempts.
    """
    asked = [ATTEMPT.c.course == course, ATTEMPT.c.lab == lab, _COUNTS]
    if students is not None:
        asked.append(ATTEMPT.c.student.in_(students))
    counted = (
        select(
            func.count().label("attempts"),
            func.min(ATTEMPT.c.number).label("first"),
            func.max(ATTEMPT.c.number).label("last"),
        )
        .where(*asked)
        .group_by(*_STEP)
        .subquery()
    )
    rows = (
        select(*_STEP, counted.c.attempts, ATTEMPT.c.outcome, ATTEMPT.c.received)
        .join(counted, ATTEMPT.c.number == counted.c.last)
        .order_by(counted.c.first)
    )
    return tuple(
        Progress(
            SheetId(course, lab, revision, student),
            step,
            attempts,
            None if said is None else Outcome(said),
            at,
        )
        for revision, student, step, attempts, said, at in connection.execute(rows)
    )
