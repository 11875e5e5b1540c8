"""Marks as tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import pandas as pd

from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from decimal import Decimal

    from workbook.errors import HandInError
    from workbook.issuing.answerbook import AnswerPage
    from workbook.labfile.roster import Student
    from workbook.marking.difference import Difference
    from workbook.marking.result import SheetMark

#: A row of the table of problems: file, kind and reason.
Problem: TypeAlias = tuple[str, str, str]

_MARKS = (
    "student",
    "name",
    "section",
    "lab",
    "points",
    "out_of",
    "taken_off",
    "late_off",
    "handed_in",
    "file",
    "remark",
)
_STEPS = (
    "lab",
    "student",
    "step",
    "typed",
    "read_as",
    "band",
    "outcome",
    "attempts",
    "points",
    "out_of",
    "marker",
    "reason",
)
_ANSWERS = (
    "student",
    "name",
    "section",
    "lab",
    "kind",
    "id",
    "label",
    "worked",
    "value",
)
_DIFFERENCES = (
    "student",
    "lab",
    "reading",
    "typed",
    "listed",
    "difference",
    "reason",
)


def tabulate_marks(
    roster: Iterable[Student],
    totals: Mapping[str, Decimal],
    marks: Mapping[tuple[str, str], SheetMark],
) -> pd.DataFrame:
    """
    Return a row for every student of the roster and every lab.

    Parameters
    ----------
    roster : iterable of Student
        In the order of the table.
    totals : mapping of str to Decimal
        What each lab is worth [point].
    marks : mapping of (str, str) to SheetMark
        Of those who handed in, by lab and student.

    Returns
    -------
    DataFrame
        (n_students * n_labs, 11), all text, with the columns student, name, section,
        lab, points, out_of, taken_off, late_off, handed_in, file and remark.
    """
    rows = [
        (
            each.id,
            each.name,
            each.section,
            lab,
            *_sum_up(marks.get((lab, each.id)), out),
        )
        for each in roster
        for lab, out in totals.items()
    ]
    return pd.DataFrame(rows, columns=list(_MARKS))


def tabulate_steps(marks: Iterable[SheetMark]) -> pd.DataFrame:
    """
    Return a row for every step of every hand-in.

    Parameters
    ----------
    marks : iterable of SheetMark
        In the order of the table.

    Returns
    -------
    DataFrame
        (n_hand_ins * n_steps, 12), all text, with the columns lab, student, step,
        typed, read_as, band, outcome, attempts, points, out_of, marker and reason.
    """
    rows = [
        (
            mark.lab,
            mark.student,
            step.step,
            step.typed,
            step.read_as,
            step.band,
            step.outcome.value,
            str(step.attempts),
            say_points(step.points),
            say_points(step.out_of),
            step.marker,
            step.reason,
        )
        for mark in marks
        for step in mark.steps
    ]
    return pd.DataFrame(rows, columns=list(_STEPS))


def tabulate_answers(pages: Iterable[AnswerPage]) -> pd.DataFrame:
    """
    Return a row for every value and every answer of every student.

    Parameters
    ----------
    pages : iterable of AnswerPage
        In the order of the table.

    Returns
    -------
    DataFrame
        (n_students * (n_values + n_steps), 9), all text, with the columns student,
        name, section, lab, kind, id, label, worked and value.
    """
    rows = []
    for page in pages:
        who = (page.student.id, page.student.name, page.student.section, page.lab)
        rows += [(*who, v.origin, v.name, v.label, "", v.shown) for v in page.drawn]
        rows += [
            (*who, "answer", s.step_id, s.label, s.substituted_text, s.value_text)
            for s in page.steps
        ]
    return pd.DataFrame(rows, columns=list(_ANSWERS))


def tabulate_problems(problems: Iterable[Problem]) -> pd.DataFrame:
    """
    Return a row for every file that was not marked, and every other problem.

    Parameters
    ----------
    problems : iterable of (str, str, str)
        What `list_problems` and `list_notes` give.

    Returns
    -------
    DataFrame
        (n_problems, 3), all text, with the columns file, kind and reason.
    """
    return pd.DataFrame(list(problems), columns=["file", "kind", "reason"])


def list_problems(
    refused: Iterable[HandInError],
    superseded: Iterable[HandInError] = (),
    idle: Iterable[str] = (),
) -> Iterator[Problem]:
    """
    List what was not marked, and what did not count.

    Parameters
    ----------
    refused : iterable of HandInError
        Files that can't be marked.
    superseded : iterable of HandInError
        Files that a newer one takes the place of.
    idle : iterable of str
        What is to be said of decisions by hand.

    Yields
    ------
    (str, str, str)
        File, kind and reason.
    """
    for each in refused:
        yield each.file, "refused", each.reason
    for each in superseded:
        yield each.file, "older", each.reason
    for said in idle:
        yield "", "by hand", said


def list_notes(marks: Iterable[SheetMark]) -> Iterator[Problem]:
    """
    List what is to be looked at of what was marked; it is for staff alone.

    Parameters
    ----------
    marks : iterable of SheetMark
        All that was marked.

    Yields
    ------
    (str, str, str)
        File, kind and reason.
    """
    for mark in marks:
        for note in mark.notes:
            yield mark.file, "look at", note


def tabulate_differences(differences: Iterable[Difference]) -> pd.DataFrame:
    """
    Return a row for every reading on which a list and a student differ.

    Parameters
    ----------
    differences : iterable of Difference
        In the order of the table.

    Returns
    -------
    DataFrame
        (n_differences, 7), all text, with the columns student, lab, reading, typed,
        listed, difference and reason.
    """
    rows = [
        (d.student, d.lab, d.reading, d.typed, d.listed, d.off, d.reason)
        for d in differences
    ]
    return pd.DataFrame(rows, columns=list(_DIFFERENCES))


def _sum_up(mark: SheetMark | None, out_of: Decimal) -> tuple[str, ...]:
    if mark is None:
        return "0", say_points(out_of), "0", "0", "", "", "Nothing was handed in."
    return (
        say_points(mark.points),
        say_points(mark.out_of),
        say_points(mark.taken_off),
        say_points(mark.late_off),
        "" if mark.handed_in is None else mark.handed_in.isoformat(),
        mark.file,
        mark.remark,
    )
