"""Handing back by many hands: the same pages, whoever prints them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from workbook.report.fact import Fact, find_fact
from workbook.report.handback import gather_marked, put_page, write_pages
from workbook.report.page import write_page
from workbook.solver.crew import (
    ALL_CORES,
    Crew,
    count_workers,
    cut,
    read_stamped,
    stamp_course,
    work_in_batches,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from workbook.labfile.roster import Student
    from workbook.marking.record import MarkRecord
    from workbook.marking.result import SheetMark
    from workbook.solver.source import CourseSource


class Handed(NamedTuple):
    """One page that is printed."""

    fact: Fact
    #: Its content, where whoever printed it could not write it; empty otherwise.
    page: bytes


def hand_back_by_crew(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    marks: MarkRecord,
    crew: Crew = ALL_CORES,
) -> Iterator[Fact]:
    """
    Write the page of each hand-in, whoever prints it.

    Parameters
    ----------
    folder : Path
        The folder of marks, which exists.
    source : CourseSource
        The course with its key; workers of a cluster must find its file, and what lies
        beside it, at the same place.
    roster : sequence of Student
        The students of the course.
    marks : MarkRecord
        Those of a lab one behind the other.
    crew : Crew
        Who prints.

    Yields
    ------
    Fact
        What the report on a class needs, in the order of *marks*.

    Raises
    ------
    OSError
        If the disk refuses.
    TaskError
        If there is no such cluster, or a worker ends or finds another course.
    """
    workers = count_workers(crew, len(marks))
    if crew.cluster is None and workers == 1:
        marked = gather_marked(source, roster, marks.walk())
        yield from write_pages(folder, source.course.title, marked)
        return
    path = source.course.path.resolve()
    course = (str(path), stamp_course(path), str(folder.resolve()))
    students = {student.id: student for student in roster}
    batches = (
        (*course, [students[mark.student] for mark in lot], lot)
        for lot in cut(marks.walk())
    )
    for fact, page in work_in_batches(crew, workers, hand_back_batch, batches):
        if page:
            put_page(folder, fact.student, fact.lab, page)
        yield fact


def hand_back_batch(
    course: str,
    stamp: str,
    folder: str,
    roster: Sequence[Student],
    marks: Sequence[SheetMark],
) -> list[Handed]:
    """
    Print the pages of some hand-ins, in a process of their own.

    Parameters
    ----------
    course : str
        The course file.
    stamp : str
        What `stamp_course` gave where the work was started.
    folder : str
        The folder of marks. Its name while it is filled is nobody else's, so whoever
        finds it writes there; a machine that does not share it gives the pages back.
    roster : sequence of Student
        Whose hand-ins they are.
    marks : sequence of SheetMark
        Their marks.

    Returns
    -------
    list of Handed
        In the order of the marks.

    Raises
    ------
    OSError
        If the disk refuses.
    TaskError
        If another course stands there.
    """
    source, place = read_stamped(course, stamp), Path(folder)
    marked = gather_marked(source, roster, marks)
    title = source.course.title
    if place.is_dir():
        return [Handed(fact, b"") for fact in write_pages(place, title, marked)]
    return [
        Handed(find_fact(each.mark, each.case), write_page(each, title))
        for each in marked
    ]
