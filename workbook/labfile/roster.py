"""
The roster: who takes the course, one student a row of a CSV file.

The first row names the columns: ``student`` (the id), ``name``, and two that may be
left out: ``section``, and ``login``, the student's name on a hub, where that is not
the id. An id names folders and files, so it is kept plain.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AuthorError
from workbook.labfile.listfile import Layout, Row, explain_length, read_rows

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

_LAYOUT = Layout("roster", ("student", "name"), ("section", "login"))

_MAX_ID_LENGTH = 64
_PLAIN_ID = re.compile(r"[A-Za-z0-9._-]*")

#: Names that no folder of a Windows machine can have, whatever follows behind a dot
#: (Microsoft, "Naming Files, Paths, and Namespaces"; from memory).
_RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, order=True)
class Student:
    """One row of the roster."""

    id: str
    name: str
    #: Empty when the roster has no sections.
    section: str = ""
    #: The student's name on a hub; empty where that is the id.
    login: str = ""


def read_roster(path: Path) -> tuple[Student, ...]:
    """
    Return the students of a roster.

    Parameters
    ----------
    path : Path
        A CSV file in UTF-8, with or without a byte order mark.

    Returns
    -------
    tuple of Student
        In the order of the file.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    head, *body = read_rows(path, _LAYOUT)
    findings = [f"{path}:{line}: {each}" for line, each in _check_body(head, body)]
    if not findings and not body:
        findings = [f"{path}:{head.line}: no student follows; add a row for each."]
    if findings:
        raise AuthorError(tuple(findings))
    return tuple(_to_student(head, row) for row in body)


def explain_id(text: str) -> str:
    """
    Return what is wrong with an id, or the empty text.

    Parameters
    ----------
    text : str
        The id of a student or a course.

    Returns
    -------
    str
        A clause without a full stop: ``"is empty"``.

    Examples
    --------
    >>> explain_id("hk-17")
    ''
    >>> explain_id("hk/17")
    "holds '/'; letters, digits, '.', '_' and '-' are allowed"
    """
    wrong = ""
    if not text:
        wrong = "is empty"
    elif len(text) > _MAX_ID_LENGTH:
        wrong = f"has {len(text)} characters; at most {_MAX_ID_LENGTH} are allowed"
    elif not _PLAIN_ID.fullmatch(text):
        strange = sorted({each for each in text if not _PLAIN_ID.fullmatch(each)})
        found = ", ".join(map(repr, strange))
        wrong = f"holds {found}; letters, digits, '.', '_' and '-' are allowed"
    elif not text[0].isalnum():
        wrong = f"starts with {text[0]!r}; start it with a letter or a digit"
    elif text.endswith("."):
        wrong = "ends with '.', which a Windows machine leaves out of a folder's name"
    elif _RESERVED.fullmatch(text):
        wrong = "is a name that a Windows machine keeps for itself; choose another"
    return wrong


def _check_body(head: Row, body: list[Row]) -> Iterator[tuple[int, str]]:
    yield from _check_logins(head, (r for r in body if not _explain_row(head, r)))
    seen: dict[str, Row] = {}
    for row in body:
        if wrong := _explain_row(head, row):
            yield row.line, wrong
            continue
        student = _to_student(head, row).id
        # Some file systems don't tell capitals apart, and an id names a folder.
        first = seen.setdefault(student.casefold(), row)
        if first is not row:
            other = _to_student(head, first).id
            also = "" if student == other else f" as {other!r}"
            sentence = (
                f"the student id {student!r} stands in line {first.line} already{also};"
                f" give each student one of their own."
            )
            yield row.line, sentence


def _explain_row(head: Row, row: Row) -> str:
    if wrong := explain_length(head, row):
        return wrong
    student = _to_student(head, row).id
    wrong = explain_id(student)
    return f"the student id {student!r} {wrong}." if wrong else ""


def _to_student(head: Row, row: Row) -> Student:
    cells = dict(zip(head.cells, row.cells, strict=True))
    more = (cells.get("section", ""), cells.get("login", ""))
    return Student(cells["student"], cells["name"], *more)


def _check_logins(head: Row, rows: Iterable[Row]) -> Iterator[tuple[int, str]]:
    """Find names on a hub that two students have: one would be taken for the other."""
    seen: dict[str, Row] = {}
    for row in rows:
        student = _to_student(head, row)
        login = student.login or student.id
        first = seen.setdefault(login.casefold(), row)
        # Two ids that are the same are found elsewhere.
        if first is not row and (student.login or _to_student(head, first).login):
            sentence = (
                f"the login {login!r} is that of the student in line {first.line} "
                f"already; give each student one of their own."
            )
            yield row.line, sentence
