"""What ``workbook mark`` writes for students, and for a system of records."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import click

from workbook.marking.points import total
from workbook.report.crew import hand_back_by_crew
from workbook.report.handback import (
    CLASS_FILE,
    PAGES,
    RECORDS,
    SIGNALS_FILE,
    SIGNALS_PAGE,
    write_class,
    write_records,
)
from workbook.report.oneroster import Item, Place

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from workbook.labfile.roster import Student
    from workbook.marking.record import MarkRecord
    from workbook.solver.crew import Crew
    from workbook.solver.source import CourseSource

#: All that is written, so that nothing else is ever set aside.
HANDED_BACK = (PAGES, RECORDS, CLASS_FILE, SIGNALS_FILE, SIGNALS_PAGE)


def hand_back(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    marks: MarkRecord,
    crew: Crew,
) -> None:
    """
    Write a page for each hand-in, the report on the class, and tables for records.

    Parameters
    ----------
    folder : Path
        The folder of marks that is being made.
    source : CourseSource
        The course with its key.
    roster : sequence of Student
        The students of the course.
    marks : MarkRecord
        Those of a lab one behind the other.
    crew : Crew
        Who prints.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    printing = hand_back_by_crew(folder, source, roster, marks, crew)
    with click.progressbar(
        printing, length=len(marks), label="Handing back"
    ) as written:
        facts = list(written)
    write_class(folder, source, roster, facts)
    day = datetime.now(UTC).date()
    items = [_file_lab(source, name, day) for name in source.labs]
    write_records(folder / RECORDS, _find_place(source), items, roster, (marks, day))


def _find_place(source: CourseSource) -> Place:
    """Return the record system's ids where the course names them, or the course's."""
    classes = source.course.classes
    class_id = classes[0] if len(classes) == 1 else source.name
    period_id = source.course.period or source.name
    return Place(course=source.name, class_id=class_id, period_id=period_id)


def _file_lab(source: CourseSource, lab: str, day: date) -> Item:
    """Return a lab with its dates; where the course has none, the day of marking."""
    opens, due = source.course.calendar.opens(lab), source.course.calendar.due(lab)
    due_day = due.date() if due is not None else day
    return Item(
        lab=lab,
        title=source.labs[lab].public.title,
        assigned=opens.date() if opens is not None else min(day, due_day),
        due=due_day,
        out_of=total(source.course.marks, source.labs[lab].public),
    )
