"""
What a hand-in loses for coming late: always of the total, never of a step.

A day is 24 hours from the due time on, and one that has begun counts.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import UTC, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from datetime import datetime

    from workbook.labfile.calendar import Calendar
    from workbook.labfile.late import LateTable

_DAY = timedelta(days=1)

#: Points that do not come out even are rounded to this [point].
_HUNDREDTH = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Deadline:
    """When one student's hand-in of one lab is due, and what comes after."""

    due: datetime | None = None
    #: Before then nothing was to be answered.
    opens: datetime | None = None
    #: From then on nothing is earned: the rule's end, or the lab was handed back.
    end: datetime | None = None


#: Of a lab of which nothing is said.
NO_DEADLINE = Deadline()


@dataclass(frozen=True, slots=True)
class Lateness:
    """What is taken off, and the sentence that says why."""

    off: Decimal
    sentence: str


#: Of a hand-in that is in time.
IN_TIME = Lateness(Decimal(0), "")


def find_deadline(
    calendar: Calendar, late: LateTable, lab: str, student: str
) -> Deadline:
    """
    Return when a student's hand-in of a lab is due.

    Parameters
    ----------
    calendar : Calendar
        The dates of the course.
    late : LateTable
        The course's rule.
    lab : str
        The lab's name.
    student : str
        The student's id.

    Returns
    -------
    Deadline
        An extension moves the due time and the days after it, not the time at which
        the lab is handed back.
    """
    due = calendar.due(lab, student)
    ends = [calendar.closed(lab)]
    if due is not None and late.until_days == "next lab":
        ends.append(calendar.next_due(lab))
    elif due is not None and isinstance(late.until_days, int) and late.until_days:
        ends.append(due.astimezone(UTC) + late.until_days * _DAY)
    end = min(filter(None, ends), default=None)
    return Deadline(due, calendar.opens(lab), end)


def find_lateness(
    late: LateTable,
    deadline: Deadline,
    at: datetime,
    points: tuple[Decimal, Decimal],
) -> Lateness:
    """
    Return what a hand-in loses for coming late.

    Parameters
    ----------
    late : LateTable
        The course's rule.
    deadline : Deadline
        The student's.
    at : datetime
        When the hand-in came, with its time zone.
    points : tuple of Decimal
        What it earns otherwise, and what the lab is worth [point].

    Returns
    -------
    Lateness
        Never more than is earned.
    """
    earned, worth = points
    if deadline.end is not None and at > deadline.end:
        return Lateness(earned, f"Late: it came {_say_after(deadline.end, at)}.")
    due = deadline.due
    if due is None or at <= due + timedelta(minutes=late.grace_minutes):
        return IN_TIME
    days = math.ceil((at - due) / _DAY)
    if late.rule == "nothing":
        return Lateness(Decimal(0), f"Late, at no cost: it came {_say_due(due, at)}.")
    off = {
        "all": earned,
        "share once": late.takes * (earned if late.of == "earned" else worth),
        "share a day": days * late.takes * (earned if late.of == "earned" else worth),
        "points a day": days * late.takes,
    }[late.rule]
    off = min(earned, off.quantize(_HUNDREDTH))
    sentence = (
        f"Late: {say_points(off)} off ({_say_rule(late, days)}); it came "
        f"{_say_due(due, at)}."
    )
    return Lateness(off, sentence)


def _say_rule(late: LateTable, days: int) -> str:
    share = f"{say_points(100 * late.takes)} % of what was {late.of}"
    if late.of == "worth":
        share = f"{say_points(100 * late.takes)} % of what the lab is worth"
    count = f"{days} day{'s' if days > 1 else ''} begun"
    return {
        "all": "nothing is earned late",
        "share once": share,
        "share a day": f"{share} a day, {count}",
        "points a day": f"{say_points(late.takes)} a day, {count}",
    }[late.rule]


def _say_due(due: datetime, at: datetime) -> str:
    here = at.astimezone(due.tzinfo)
    return f"{_say_time(here)}, and was due {_say_time(due)}"


def _say_after(end: datetime, at: datetime) -> str:
    here = at.astimezone(end.tzinfo)
    return f"{_say_time(here)}, and nothing is earned after {_say_time(end)}"


def _say_time(moment: datetime) -> str:
    return moment.isoformat(sep=" ", timespec="minutes")
