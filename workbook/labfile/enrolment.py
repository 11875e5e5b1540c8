"""
Who takes the course, from whichever list the college has.

That is a CSV file of our own, or a folder with files of the open OneRoster standard:

- ``users.csv``: sourcedId, givenName, familyName, and status and enabledUser if given;
- ``enrollments.csv``: classSourcedId, userSourcedId, role, and status if given;
- ``classes.csv``, which may be left out: sourcedId and title, the name of a section.

Their other columns are passed over. A student's id is the user's sourcedId. Nothing
but the id goes into anybody's values, so late enrolment changes no others'.

References
----------
.. [1] 1EdTech OneRoster: CSV Tables, final release 1.1.1, 22 August 2023.
.. [2] 1EdTech OneRoster: CSV Binding, final release 1.2.1, 22 August 2023; in it the
   users' roles stand in a file of their own, which is not needed here.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AuthorError, nearest
from workbook.labfile.roster import Student, explain_id, read_roster

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from pathlib import Path

#: The files of the standard that are read.
_USERS, _ENROLLMENTS, _CLASSES = "users.csv", "enrollments.csv", "classes.csv"

#: The columns of each that are needed.
_NEEDED = {
    _USERS: ("sourcedId", "givenName", "familyName"),
    _ENROLLMENTS: ("classSourcedId", "userSourcedId", "role"),
    _CLASSES: ("sourcedId", "title"),
}

#: What the status of a record says that is there no more; bulk files leave it empty.
_GONE = "tobedeleted"


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of a file, with the line that it ends on."""

    path: Path
    line: int
    cells: Mapping[str, str]

    def say(self, sentence: str) -> str:
        return f"{self.path}:{self.line}: {sentence}"


def read_students(path: Path, classes: Sequence[str] = ()) -> tuple[Student, ...]:
    """
    Return the students of a course.

    Parameters
    ----------
    path : Path
        A roster as CSV, or a folder of OneRoster's files.
    classes : sequence of str
        The sourcedIds of the classes that are meant; none for all in the folder.

    Returns
    -------
    tuple of Student
        In the order of the roster; from OneRoster in that of the ids, with the title of
        the class for a section.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    if not path.is_dir():
        return read_roster(path)
    titles = _read_titles(path)
    known = {row.cells["sourcedId"]: row for row in _read(path / _USERS)}
    rows = [
        row
        for row in _read(path / _ENROLLMENTS)
        if row.cells["role"] == "student"
        and (not classes or row.cells["classSourcedId"] in classes)
    ]
    findings = [
        *_check_classes(path, classes, rows),
        *_check_enrolments(rows, known),
    ]
    if findings:
        raise AuthorError(tuple(findings))
    made = [_enrol(row, known, titles) for row in rows if _is_there(row, known)]
    if not made:
        finding = f"{path / _ENROLLMENTS}: nobody is enrolled as a student."
        raise AuthorError((finding,))
    return tuple(sorted(made))


def _read_titles(folder: Path) -> dict[str, str]:
    if not (folder / _CLASSES).exists():
        return {}
    rows = _read(folder / _CLASSES)
    return {row.cells["sourcedId"]: row.cells["title"] for row in rows}


def _read(path: Path) -> list[_Row]:
    """Read a file's rows that are not to be deleted."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        finding = f"{path}: the file can't be read as UTF-8: {error}."
        raise AuthorError((finding,)) from error
    reader = csv.DictReader(io.StringIO(text, newline=""), restval="", strict=True)
    try:
        head = [name.strip() for name in reader.fieldnames or ()]
        missing = [name for name in _NEEDED[path.name] if name not in head]
        if missing:
            hint = nearest(missing[0], head)
            finding = f"{path}:1: the column {missing[0]!r} is missing.{hint}"
            raise AuthorError((finding,))
        reader.fieldnames = head
        rows = [_Row(path, reader.line_num, _clean(cells)) for cells in reader]
    except csv.Error as error:
        finding = f"{path}:{reader.line_num}: the row is no CSV ({error})."
        raise AuthorError((finding,)) from error
    return [row for row in rows if row.cells.get("status", "") != _GONE]


def _clean(cells: Mapping[str | None, object]) -> dict[str, str]:
    return {k: v.strip() for k, v in cells.items() if k and isinstance(v, str)}


def _check_classes(
    folder: Path, classes: Sequence[str], rows: Sequence[_Row]
) -> Iterator[str]:
    there = {row.cells["classSourcedId"] for row in rows}
    for name in classes:
        if name not in there:
            yield (
                f"{folder / _ENROLLMENTS}: no student is enrolled in the class "
                f"{name!r} that the course file names."
            )


def _check_enrolments(rows: Sequence[_Row], known: Mapping[str, _Row]) -> Iterator[str]:
    seen: dict[str, _Row] = {}
    for row in rows:
        user = row.cells["userSourcedId"]
        if user not in known:
            yield row.say(f"the user {user!r} is not in {_USERS}.")
        elif wrong := explain_id(user):
            yield known[user].say(f"the sourcedId {user!r} {wrong}.")
        first = seen.setdefault(user.casefold(), row)
        if first.cells["classSourcedId"] != row.cells["classSourcedId"]:
            yield row.say(
                f"the user {user!r} is enrolled in another class in line {first.line} "
                f"already; name the classes that are meant as 'classes' in [course]."
            )
        elif first.cells["userSourcedId"] != user:
            yield row.say(f"{user!r} differs from another id by capitals alone.")


def _is_there(row: _Row, known: Mapping[str, _Row]) -> bool:
    enabled = known[row.cells["userSourcedId"]].cells.get("enabledUser", "")
    return enabled.casefold() != "false"


def _enrol(row: _Row, known: Mapping[str, _Row], titles: Mapping[str, str]) -> Student:
    user = known[row.cells["userSourcedId"]].cells
    name = f"{user['givenName']} {user['familyName']}".strip()
    section = row.cells["classSourcedId"]
    return Student(user["sourcedId"], name, titles.get(section, section))
