"""Issuing by many hands: the same folders and pages, whoever makes them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from workbook.issuing.issue import issue_sheets
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

    from workbook.issuing.answerbook import AnswerPage
    from workbook.labfile.roster import Student
    from workbook.solver.source import CourseSource


def issue_by_crew(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    crew: Crew = ALL_CORES,
) -> Iterator[AnswerPage]:
    """
    Write each student's copy of each lab, on several cores.

    Parameters
    ----------
    folder : Path
        ``<student>/<lab>`` is made below it.
    source : CourseSource
        The course with its key.
    roster : sequence of Student
        Who gets a copy.
    crew : Crew
        Who makes them: processes of this machine.

    Yields
    ------
    AnswerPage
        One for each student and lab, students of a lab in the roster's order.

    Raises
    ------
    OSError
        If the disk refuses.
    TaskError
        If a process ends, or finds another course.
    """
    workers = count_workers(crew, len(roster) * len(source.labs))
    if workers == 1:
        yield from issue_sheets(folder, source, roster)
        return
    path = source.course.path.resolve()
    course = (str(path), stamp_course(path), str(folder.resolve()))
    batches = ((*course, lab, some) for lab in source.labs for some in cut(roster))
    yield from work_in_batches(crew, workers, issue_batch, batches)


def issue_batch(
    course: str, stamp: str, folder: str, lab: str, roster: Sequence[Student]
) -> list[AnswerPage]:
    """
    Write the copies of some students of one lab, in a process of their own.

    Parameters
    ----------
    course : str
        The course file.
    stamp : str
        What `stamp_course` gave where the issuing was started.
    folder : str
        ``<student>/<lab>`` is made below it.
    lab : str
        The lab's name.
    roster : sequence of Student
        Who gets a copy.

    Returns
    -------
    list of AnswerPage
        In the order of the roster.

    Raises
    ------
    OSError
        If the disk refuses.
    TaskError
        If another course stands there.
    """
    source = read_stamped(course, stamp)
    return list(issue_sheets(Path(folder), source, roster, [lab]))
