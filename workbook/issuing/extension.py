"""Giving one student more time for a lab."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from workbook.errors import TaskError, nearest
from workbook.labfile.calendar import explain_clock, place
from workbook.labfile.extension import (
    EXTENSION_FILE,
    Extension,
    encode_extensions,
    read_extensions,
)
from workbook.store import write_file

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from workbook.labfile.course import Course
    from workbook.labfile.roster import Student


@dataclass(frozen=True, slots=True)
class Wish:
    """What a person wrote who gives a student more time."""

    student: str
    lab: str
    #: A day with its time.
    due: str
    reason: str


def read_due(text: str, course: Course) -> datetime:
    """
    Return the time that a person wrote.

    Parameters
    ----------
    text : str
        A day with its time, as ISO 8601 writes it; a blank may stand for the T.
    course : Course
        Whose time zone is meant where the text names none.

    Returns
    -------
    datetime
        With its time zone.

    Raises
    ------
    TaskError
        If it is no time, or one that is left out or comes twice where clocks change.
    """
    try:
        written = datetime.fromisoformat(text.strip())
    except ValueError:
        msg = f"{text!r} is no time. Write a day with its time: 2026-10-14 17:00"
        raise TaskError(msg) from None
    if len(text.strip()) <= len("2026-10-14"):
        msg = f"{text!r} is a day alone. Write its time as well: 2026-10-14 17:00"
        raise TaskError(msg)
    due = place(written, course.calendar.zone)
    if wrong := explain_clock(due):
        raise TaskError(wrong)
    return due


def extend_due(
    course: Course, roster: Sequence[Student], wish: Wish, at: datetime
) -> Extension:
    """
    Write an extension into the course's folder, after those that stand there.

    Parameters
    ----------
    course : Course
        As it was read.
    roster : sequence of Student
        Who takes it.
    wish : Wish
        What a person wrote.
    at : datetime
        When, with its time zone.

    Returns
    -------
    Extension
        What was written.

    Raises
    ------
    TaskError
        If there is no such student or lab, the lab is due no earlier for everybody, no
        reason is given, or the file can't be written.
    AuthorError
        If the file has a mistake.
    """
    due = read_due(wish.due, course)
    reason = " ".join(wish.reason.split())
    _check(course, roster, wish, due)
    if not reason:
        msg = "Give a reason: somebody may have to defend it."
        raise TaskError(msg)
    given = Extension(student=wish.student, lab=wish.lab, due=due, reason=reason, at=at)
    path = locate_extensions(course)
    earlier = read_extensions(path, course.calendar.labs)
    write_file(path, encode_extensions((*earlier, given)), may_replace=True)
    return given


def locate_extensions(course: Course) -> Path:
    """
    Return where the extensions stand that are given while a course runs.

    Parameters
    ----------
    course : Course
        As it was read.

    Returns
    -------
    Path
        A file beside the course file.
    """
    return course.path.parent / EXTENSION_FILE


def _check(
    course: Course, roster: Sequence[Student], wish: Wish, due: datetime
) -> None:
    ids = [student.id for student in roster]
    labs, usual = course.calendar.labs, course.calendar.due(wish.lab)
    msg = ""
    if wish.student not in ids:
        msg = f"{wish.student!r} is not on the roster.{nearest(wish.student, ids)}"
    elif wish.lab not in labs:
        msg = f"The course has no lab {wish.lab!r}.{nearest(wish.lab, labs)}"
    elif usual is None:
        msg = f"{wish.lab!r} has no due time that could be extended."
    elif due <= usual:
        msg = f"{wish.lab!r} is due for everybody at {usual.isoformat(' ')} already."
    if msg:
        raise TaskError(msg)
