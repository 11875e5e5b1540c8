"""Opening the gate of a lab for one student."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import TaskError, nearest
from workbook.labfile.permit import encode_permits, read_permits
from workbook.store import write_file
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from workbook.labfile.roster import Student
    from workbook.solver.source import CourseSource


def open_gate(source: CourseSource, sheet: SheetId, at: datetime) -> bool:
    """
    Write a permit into the course's folder, unless the student has one.

    Parameters
    ----------
    source : CourseSource
        The course with its key.
    sheet : SheetId
        Whose gate, and of which lab.
    at : datetime
        When it is opened, with its time zone.

    Returns
    -------
    bool
        False if it was open already, and nothing was written.

    Raises
    ------
    AuthorError
        If the file of permits has a mistake.
    TaskError
        If it can't be written.
    """
    if source.is_permitted(sheet):
        return False
    permit = source.permit(sheet.student, sheet.lab, at)
    content = encode_permits((*read_permits(source.permits), permit))
    write_file(source.permits, content, may_replace=True)
    return True


def name_gate(
    source: CourseSource, roster: Sequence[Student], student: str, lab: str
) -> SheetId:
    """
    Return the sheet whose gate is meant.

    Parameters
    ----------
    source : CourseSource
        The course.
    roster : sequence of Student
        Who takes it.
    student, lab : str
        As they were given.

    Returns
    -------
    SheetId
        Of the lab's present revision.

    Raises
    ------
    TaskError
        If there is no such student or lab, or the lab has no gate.
    """
    ids = [each.id for each in roster]
    if student not in ids:
        msg = f"{student!r} is not on the roster.{nearest(student, ids)}"
        raise TaskError(msg)
    if lab not in source.labs:
        msg = f"The course has no lab {lab!r}.{nearest(lab, source.labs)}"
        raise TaskError(msg)
    public = source.labs[lab].public
    if not public.gate:
        msg = f"The lab {lab!r} has no gate: its readings are on every sheet already."
        raise TaskError(msg)
    return SheetId(source.name, lab, public.revision, student)
