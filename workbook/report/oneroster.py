"""
Marks for a system of records, as the tables of the OneRoster standard.

The standard's columns and words are used as they stand. The ids of the class and of
the grading period are the record system's own, and so are the ids of students.

References
----------
.. [1] 1EdTech, OneRoster: CSV Tables, version 1.1.1, final release of 22 August 2023;
   the columns of ``categories.csv``, ``lineItems.csv``, ``results.csv`` and
   ``manifest.csv``, and the words of ``scoreStatus``. Of its text the beginning was
   read (imsglobal.org/oneroster-v11-final-csv-tables); the columns were held against
   the tables of a public program that reads and writes such sets.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pandas as pd

from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date
    from decimal import Decimal

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark

_CATEGORIES = ("sourcedId", "status", "dateLastModified", "title")
_ITEMS = (
    "sourcedId",
    "status",
    "dateLastModified",
    "title",
    "description",
    "assignDate",
    "dueDate",
    "classSourcedId",
    "categorySourcedId",
    "gradingPeriodSourcedId",
    "resultValueMin",
    "resultValueMax",
)
_RESULTS = (
    "sourcedId",
    "status",
    "dateLastModified",
    "lineItemSourcedId",
    "studentSourcedId",
    "scoreStatus",
    "score",
    "scoreDate",
    "comment",
)

#: Every file that a set of version 1.1 can hold, in the order of the standard.
_FILES = (
    "academicSessions",
    "categories",
    "classes",
    "classResources",
    "courses",
    "courseResources",
    "demographics",
    "enrollments",
    "lineItems",
    "orgs",
    "resources",
    "results",
    "users",
)

#: What is written here; the rest is the record system's own.
_WRITTEN = frozenset({"categories", "lineItems", "results"})

#: In a whole set, status and time of change are left empty.
_WHOLE = ("", "")

_CATEGORY = "labs"

#: The table of a set that grows with the class.
RESULTS_FILE = "results.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A lab, as a record system files its marks."""

    lab: str
    title: str
    assigned: date
    due: date
    #: What it is worth [point].
    out_of: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a record system files a course."""

    course: str
    #: Its own ids of the class and of the grading period.
    class_id: str
    period_id: str


def tabulate_records(place: Place, items: Sequence[Item]) -> dict[str, pd.DataFrame]:
    """
    Return every table of a set but the results, by the name of its file.

    Parameters
    ----------
    place : Place
        Where the course is filed.
    items : sequence of Item
        The labs of the course.

    Returns
    -------
    dict of str to DataFrame
        All text; the columns are those of the standard [1]_.
    """
    return {
        "manifest.csv": _tabulate_manifest(),
        "categories.csv": pd.DataFrame(
            [(_name(place, _CATEGORY), *_WHOLE, "Labs")], columns=list(_CATEGORIES)
        ),
        "lineItems.csv": pd.DataFrame(
            [_tell_item(place, item) for item in items], columns=list(_ITEMS)
        ),
    }


def tabulate_results(
    place: Place,
    asked: Iterable[tuple[Item, Student]],
    marks: Mapping[tuple[str, str], SheetMark],
    on: date,
) -> pd.DataFrame:
    """
    Return the results of some students in some labs.

    Parameters
    ----------
    place : Place
        Where the course is filed.
    asked : iterable of (Item, Student)
        Lab and student of each result.
    marks : mapping of (str, str) to SheetMark
        Of those who handed in, by lab and student.
    on : date
        When they were marked.

    Returns
    -------
    DataFrame
        (n_asked, 9), all text; the columns are those of the standard [1]_.
    """
    results = [
        _tell_result(place, item, student, marks.get((item.lab, student.id)), on)
        for item, student in asked
    ]
    return pd.DataFrame(results, columns=list(_RESULTS))


def _name(place: Place, *parts: str) -> str:
    # No part holds a slash, so no two names can be the same.
    return "/".join((place.course, *parts))


def _tabulate_manifest() -> pd.DataFrame:
    rows = [
        ("manifest.version", "1.0"),
        ("oneroster.version", "1.1"),
        *((f"file.{n}", "bulk" if n in _WRITTEN else "absent") for n in _FILES),
        ("source.systemName", "Lab workbook"),
        ("source.systemCode", "lab-workbook"),
    ]
    return pd.DataFrame(rows, columns=["propertyName", "value"])


def _tell_item(place: Place, item: Item) -> tuple[str, ...]:
    return (
        _name(place, item.lab),
        *_WHOLE,
        item.title,
        "",
        item.assigned.isoformat(),
        item.due.isoformat(),
        place.class_id,
        _name(place, _CATEGORY),
        place.period_id,
        "0",
        say_points(item.out_of),
    )


def _tell_result(
    place: Place, item: Item, student: Student, mark: SheetMark | None, on: date
) -> tuple[str, ...]:
    status, score, comment = "not submitted", "0", ""
    if mark is not None:
        waits = any(step.waits for step in mark.steps)
        status = "partially graded" if waits else "fully graded"
        score, comment = say_points(mark.points), mark.remark
    return (
        _name(place, item.lab, student.id),
        *_WHOLE,
        _name(place, item.lab),
        student.id,
        status,
        score,
        on.isoformat(),
        comment,
    )
