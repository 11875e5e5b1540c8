"""
The roster: who takes the course, one student a row of a CSV file.

The first row names the columns: ``student`` (the id), ``name``, and ``section``,
which may be left out. An id names folders and files, so it is kept plain.
"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AuthorError, nearest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

#: The columns that every roster has.
_NEEDED = ("student", "name")
#: All columns that are known.
_KNOWN = (*_NEEDED, "section")

_MAX_ID_LENGTH = 64
_PLAIN_ID = re.compile(r"[A-Za-z0-9._-]*")


@dataclass(frozen=True, slots=True, order=True)
class Student:
    """One row of the roster."""

    id: str
    name: str
    #: Empty when the roster has no sections.
    section: str = ""


@dataclass(frozen=True, slots=True)
class _Row:
    """A row that is not blank, with the line that it starts on."""

    line: int
    cells: tuple[str, ...]


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
    rows = _read_rows(path)
    if not rows:
        raise AuthorError((f"{path}:1: the file is empty; {_ask_for_columns()}",))
    head, body = rows[0], rows[1:]
    findings = [f"{path}:{head.line}: {each}" for each in _check_head(head)]
    if not findings:
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
    return wrong


def _read_rows(path: Path) -> list[_Row]:
    reader = csv.reader(io.StringIO(_read_text(path), newline=""), strict=True)
    rows: list[_Row] = []
    line = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append(_Row(line, tuple(cell.strip() for cell in cells)))
            line = reader.line_num + 1
    except csv.Error as error:
        finding = f"{path}:{line}: the row is no CSV ({error}); look at its quotes."
        raise AuthorError((finding,)) from error
    return rows


def _read_text(path: Path) -> str:
    try:
        content = path.read_bytes()
    except OSError as error:
        msg = f"{path}: the roster can't be read: {error.strerror}."
        raise AuthorError((msg,)) from error
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        msg = (
            f"{path}:{line}: the byte {content[error.start]:#04x} is not UTF-8; save "
            f"the roster as CSV in UTF-8."
        )
        raise AuthorError((msg,)) from error


def _check_head(head: _Row) -> Iterator[str]:
    if len(head.cells) == 1 and (marks := set(head.cells[0]) & {";", "\t"}):
        yield f"the columns are parted by {marks.pop()!r}; save them with commas."
        return
    for name in _NEEDED:
        if name not in head.cells:
            hint = nearest(name, set(head.cells) - set(_KNOWN))
            yield f"the column {name!r} is missing; {_ask_for_columns()}{hint}"
    for name in sorted(set(head.cells) - set(_KNOWN)):
        yield f"{name!r} is no column of a roster.{nearest(name, _KNOWN)}"
    for name in sorted({each for each in head.cells if head.cells.count(each) > 1}):
        yield f"the column {name!r} stands there twice; keep one."


def _ask_for_columns() -> str:
    return (
        f"the first row names {', '.join(map(repr, _NEEDED))} and, if used, 'section'."
    )


def _check_body(head: _Row, body: list[_Row]) -> Iterator[tuple[int, str]]:
    seen: dict[str, _Row] = {}
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


def _explain_row(head: _Row, row: _Row) -> str:
    if len(row.cells) != len(head.cells):
        return (
            f"the number of cells is {len(row.cells)}, and {len(head.cells)} in the "
            f"first row; put a text with a comma in quotes."
        )
    student = _to_student(head, row).id
    wrong = explain_id(student)
    return f"the student id {student!r} {wrong}." if wrong else ""


def _to_student(head: _Row, row: _Row) -> Student:
    cells = dict(zip(head.cells, row.cells, strict=True))
    return Student(cells["student"], cells["name"], cells.get("section", ""))
