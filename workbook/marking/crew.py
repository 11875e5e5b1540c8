"""Marking by many hands: the marks are the same, whoever works them out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.marking.mark import mark_all
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
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from workbook.marking.gather import Accepted
    from workbook.marking.override import Override
    from workbook.marking.result import SheetMark
    from workbook.solver.source import CourseSource


def mark_by_crew(
    source: CourseSource,
    accepted: Iterable[Accepted],
    number: int,
    overrides: Sequence[Override] = (),
    crew: Crew = ALL_CORES,
) -> Iterator[SheetMark]:
    """
    Yield the marks of many hand-ins, whoever works them out.

    Parameters
    ----------
    source : CourseSource
        The course with its key; workers of a cluster must find its file, and what lies
        beside it, at the same place.
    accepted : iterable of Accepted
        In the order of the marks; they are taken when somebody can mark them.
    number : int
        About how many there are [-].
    overrides : sequence of Override
        What persons decided, in the order of deciding.
    crew : Crew
        Who marks.

    Yields
    ------
    SheetMark
        One for each hand-in, in their order.

    Raises
    ------
    TaskError
        If there is no such cluster, or a worker ends or finds another course.
    """
    workers = count_workers(crew, number)
    if crew.cluster is None and workers == 1:
        yield from mark_all(source, accepted, overrides)
        return
    path = source.course.path.resolve()
    course = (str(path), stamp_course(path))
    given = _sort(overrides)
    batches = ((*course, lot, _pick(lot, given)) for lot in cut(accepted))
    yield from work_in_batches(crew, workers, mark_batch, batches)


def mark_batch(
    course: str,
    stamp: str,
    accepted: Sequence[Accepted],
    overrides: Sequence[Override],
) -> list[SheetMark]:
    """
    Return the marks of some hand-ins, in a process of their own.

    Parameters
    ----------
    course : str
        The course file.
    stamp : str
        What `stamp_course` gave where the marking was started.
    accepted : sequence of Accepted
        The hand-ins.
    overrides : sequence of Override
        What persons decided on them.

    Returns
    -------
    list of SheetMark
        In the order of the hand-ins.

    Raises
    ------
    TaskError
        If another course stands there.
    """
    return list(mark_all(read_stamped(course, stamp), accepted, overrides))


def _sort(overrides: Sequence[Override]) -> dict[tuple[str, str], list[Override]]:
    """Return the decisions by student and lab, each in the order of deciding."""
    found: dict[tuple[str, str], list[Override]] = {}
    for each in overrides:
        found.setdefault((each.student, each.lab), []).append(each)
    return found


def _pick(
    lot: Sequence[Accepted], given: Mapping[tuple[str, str], list[Override]]
) -> list[Override]:
    """Return only the decisions that are about some hand-ins."""
    sheets = {(a.hand_in.sheet.student, a.hand_in.sheet.lab) for a in lot}
    return [each for sheet in sorted(sheets) for each in given.get(sheet, ())]
