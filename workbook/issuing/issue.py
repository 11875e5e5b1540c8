"""From a course and its roster to a folder for every student and lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.issuing.answerbook import make_page
from workbook.issuing.folder import fill_folder, gather_files
from workbook.judge.noted import settle
from workbook.solver.crew import cases_in_turn
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from workbook.issuing.answerbook import AnswerPage
    from workbook.labfile.roster import Student
    from workbook.solver.source import CourseSource


def issue_sheets(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    labs: Sequence[str] | None = None,
) -> Iterator[AnswerPage]:
    """
    Write each student's copy of each lab, and yield its page of the answer book.

    Parameters
    ----------
    folder : Path
        ``<student>/<lab>`` is made below it.
    source : CourseSource
        The course with its key.
    roster : sequence of Student
        Who gets a copy.
    labs : sequence of str or None
        Of which labs; None for all of the course.

    Yields
    ------
    AnswerPage
        One for each student and lab, students of a lab in the roster's order.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    ids = [student.id for student in roster]
    for name in source.labs if labs is None else labs:
        lab = source.labs[name]
        # By the graph: a section reads of its own bottles in its notebooks.
        files: dict[int, dict[str, bytes]] = {}
        cases = cases_in_turn(source, name, ids)
        for student, case in zip(roster, cases, strict=True):
            sheet_id = SheetId(
                course=source.course.name,
                lab=name,
                revision=lab.public.revision,
                student=student.id,
            )
            sheet = source.show(sheet_id, case)
            graph = case.graph
            if id(graph) not in files:
                files[id(graph)] = gather_files(graph.lab)
            fill_folder(folder / student.id / name, sheet, files[id(graph)])
            yield make_page(student, settle(case, {}))
