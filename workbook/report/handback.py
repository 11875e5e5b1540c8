"""What goes back to students, and to a system of records."""

from __future__ import annotations

from itertools import groupby, product
from typing import TYPE_CHECKING

from workbook.judge.noted import settle
from workbook.report.cohort import form_cohort
from workbook.report.csvfile import encode_csv, write_csv
from workbook.report.fact import find_fact
from workbook.report.oneroster import (
    RESULTS_FILE,
    tabulate_records,
    tabulate_results,
)
from workbook.report.overview import look_over, print_overviews
from workbook.report.page import Marked, write_page
from workbook.report.signal import find_signals, print_signals, tabulate_signals
from workbook.solver.crew import cut
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from datetime import date
    from pathlib import Path

    import pandas as pd

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark
    from workbook.report.fact import Fact
    from workbook.report.oneroster import Item, Place
    from workbook.solver.source import CourseSource

#: The folders that are written: ``<student>/<lab>.html`` in the first.
PAGES, RECORDS = "pages", "oneroster"

#: The report on the class.
CLASS_FILE = "class.html"

#: What is worth a question, as a table and as a page.
SIGNALS_FILE, SIGNALS_PAGE = "signals.csv", "signals.html"


def gather_marked(
    source: CourseSource, roster: Iterable[Student], marks: Iterable[SheetMark]
) -> Iterator[Marked]:
    """
    Yield each hand-in with all that its page tells.

    Parameters
    ----------
    source : CourseSource
        The course with its key; the values of a lab are drawn for many at once.
    roster : iterable of Student
        The students of the course.
    marks : iterable of SheetMark
        Those of a lab one behind the other.

    Yields
    ------
    Marked
        One for each of *marks*.
    """
    students = {student.id: student for student in roster}
    for lab, several in groupby(marks, key=lambda mark: mark.lab):
        revision = source.labs[lab].public.revision
        for lot in cut(several):
            cases = source.cases(lab, [mark.student for mark in lot])
            for mark, case in zip(lot, cases, strict=True):
                sheet = SheetId(source.name, lab, revision, mark.student)
                given = {s.step: s.answer for s in mark.steps if s.answer is not None}
                yield Marked(
                    student=students[mark.student],
                    mark=mark,
                    # Readings of the student's own bench replace drawn ones.
                    case=settle(case, given),
                    sheet=source.show_whole(sheet, case),
                )


def write_pages(folder: Path, course: str, marked: Iterable[Marked]) -> Iterator[Fact]:
    """
    Write the page of each hand-in, and yield what the report on a class needs of it.

    Parameters
    ----------
    folder : Path
        The folder of marks; ``pages/<student>/<lab>.html`` is made below it.
    course : str
        The course's title.
    marked : iterable of Marked
        What `gather_marked` yields.

    Yields
    ------
    Fact
        Of a page that is written.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    for each in marked:
        page = write_page(each, course)
        put_page(folder, each.student.id, each.mark.lab, page)
        yield find_fact(each.mark, each.case)


def put_page(folder: Path, student: str, lab: str, page: bytes) -> None:
    """
    Put a page in its place.

    Parameters
    ----------
    folder : Path
        The folder of marks.
    student, lab : str
        Whose it is, and of which lab.
    page : bytes
        HTML.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    path = folder / PAGES / student / f"{lab}.html"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(page)


def write_class(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    facts: Iterable[Fact],
) -> None:
    """
    Write the report on a class, and what is worth a question.

    Parameters
    ----------
    folder : Path
        The folder of marks.
    source : CourseSource
        The course with its key.
    roster : sequence of Student
        The students of the course, at least one.
    facts : iterable of Fact
        One for each hand-in to any lab.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    by_lab: dict[str, list[Fact]] = {name: [] for name in source.labs}
    for fact in facts:
        by_lab[fact.lab].append(fact)
    title = source.course.title
    overviews, signals = [], []
    for lab, found in by_lab.items():
        (any_case,) = source.cases(lab, [roster[0].id])
        cohort = form_cohort(any_case.graph, found)
        overviews.append(look_over(any_case.graph, roster, cohort))
        signals += find_signals(cohort)
    (folder / CLASS_FILE).write_bytes(print_overviews(title, overviews))
    (folder / SIGNALS_FILE).write_bytes(encode_csv(tabulate_signals(signals)))
    (folder / SIGNALS_PAGE).write_bytes(print_signals(title, signals))


def write_records(
    folder: Path,
    place: Place,
    items: Sequence[Item],
    roster: Sequence[Student],
    marked: tuple[Mapping[tuple[str, str], SheetMark], date],
) -> None:
    """
    Write the tables that a system of records takes in.

    Parameters
    ----------
    folder : Path
        It is made.
    place : Place
        Where the course is filed.
    items : sequence of Item
        The labs of the course.
    roster : sequence of Student
        Each has a result for each lab.
    marked : (mapping of (str, str) to SheetMark, date)
        The marks of those who handed in, by lab and student, and when they were given.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    folder.mkdir()
    for name, table in tabulate_records(place, items).items():
        (folder / name).write_bytes(encode_csv(table))
    marks, day = marked

    def tabulate(asked: Sequence[tuple[Item, Student]]) -> pd.DataFrame:
        return tabulate_results(place, asked, marks, day)

    write_csv(folder / RESULTS_FILE, tabulate, product(items, roster))
