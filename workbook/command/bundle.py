"""
A course gathered from wherever its parts lie: a name and a content for each file.

In it every part has a fixed place, so that the bundle can be put anywhere: the course
file at the top, its labs in ``labs``, its roster beside it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import tomlkit
from tomlkit.exceptions import TOMLKitError

from workbook.errors import TaskError
from workbook.labfile.extension import EXTENSION_FILE
from workbook.labfile.permit import PERMIT_FILE
from workbook.marking.override import OVERRIDES_FILE
from workbook.solver.source import KEY_FILE

if TYPE_CHECKING:
    from collections.abc import Iterator, MutableMapping
    from pathlib import Path

    from tomlkit import TOMLDocument

    from workbook.labfile.course import Course

#: The course file's name in a bundle.
COURSE_FILE = "course.toml"

#: A roster in one file, and in several.
_ROSTER_FILE, _ROSTER_FOLDER = "roster.csv", "roster"

#: The folder of the labs.
_LABS = "labs"


def bundle_labs(course: Course) -> dict[str, bytes]:
    """
    Return the files of a course's labs.

    Parameters
    ----------
    course : Course
        The course.

    Returns
    -------
    dict of str to bytes
        Lab files, notebooks, and whatever else lies openly in a lab's folder.

    Raises
    ------
    TaskError
        If one of them can't be read.
    """
    found: dict[str, bytes] = {}
    for name, folder in course.folders.items():
        for path in _list_open(folder):
            below = path.relative_to(folder).as_posix()
            found[f"{_LABS}/{name}/{below}"] = _read(path)
    return found


def bundle_people(course: Course, *, has_key: bool) -> dict[str, bytes]:
    """
    Return the files that tell who takes a course, and what was decided for them.

    Parameters
    ----------
    course : Course
        The course.
    has_key : bool
        True to have the course's key among them.

    Returns
    -------
    dict of str to bytes
        Roster, permits, extensions, decisions by hand, and the key if asked for.

    Raises
    ------
    TaskError
        If one of them can't be read, or the key is asked for and not there.
    """
    roster = course.roster
    if roster.is_dir():
        paths = sorted(roster.glob("*.csv"))
        found = {f"{_ROSTER_FOLDER}/{path.name}": _read(path) for path in paths}
    else:
        found = {_ROSTER_FILE: _read(roster)}
    for name in (PERMIT_FILE, EXTENSION_FILE, OVERRIDES_FILE):
        if (course.path.parent / name).exists():
            found[name] = _read(course.path.parent / name)
    if has_key:
        found[KEY_FILE] = _read(course.path.parent / KEY_FILE)
    return found


def rewrite_course(course: Course) -> TOMLDocument:
    """
    Return a course file that finds its parts at their places in a bundle.

    Parameters
    ----------
    course : Course
        The course.

    Returns
    -------
    TOMLDocument
        Otherwise as it was written, comments included; it can be changed further.

    Raises
    ------
    TaskError
        If it can't be read as TOML.
    """
    try:
        document = tomlkit.parse(_read(course.path).decode())
    except TOMLKitError as error:
        msg = f"{course.path} can't be read: {error}."
        raise TaskError(msg) from error
    table = cast("MutableMapping[str, object]", document["course"])
    labs = [f"{_LABS}/{name}" for name in course.folders]
    roster = _ROSTER_FOLDER if course.roster.is_dir() else _ROSTER_FILE
    table.update({"labs": labs, "roster": roster})
    return document


def _list_open(folder: Path) -> Iterator[Path]:
    """List the files of a lab that are not hidden, not made by a tool, and no links."""
    for path in sorted(folder.rglob("*")):
        parts = path.relative_to(folder).parts
        is_open = not any(part.startswith((".", "__")) for part in parts)
        if is_open and path.is_file() and not path.is_symlink():
            yield path


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        msg = f"{path} can't be read: {error.strerror}."
        raise TaskError(msg) from error
