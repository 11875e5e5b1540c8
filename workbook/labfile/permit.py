"""
Permits: the students for whom an instructor has opened the gate of a lab.

They stand in a file beside the course file. Each is sealed with the course key, so
that a line which anybody else has written there opens nothing.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated

from pydantic import AwareDatetime, Field

from workbook.labfile.field import Text
from workbook.labfile.position import read_toml
from workbook.labfile.reader import validate
from workbook.labfile.table import Table

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

#: The file beside the course file.
PERMIT_FILE = "course.permits.toml"

_HEAD = """\
# Written by `workbook open`: for these students the readings of a lab are shown, though
# their steps before it are not all right. Take a table away to shut a gate again; what
# a student has seen by then stays theirs.
"""


class Permit(Table):
    """``[[permit]]``: one student who passes one gate."""

    student: Text
    lab: Text
    #: When it was given.
    at: AwareDatetime
    #: The seal of the course for this student and lab.
    seal: Text


class PermitFile(Table):
    """The whole file."""

    permit: Annotated[tuple[Permit, ...], Field(min_length=1)]


def read_permits(path: Path) -> tuple[Permit, ...]:
    """
    Return the permits of a course.

    Parameters
    ----------
    path : Path
        What `encode_permits` gave, in a file; it need not be there.

    Returns
    -------
    tuple of Permit
        In the order of the file; their seals are not checked yet.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    if not path.exists():
        return ()
    return validate(PermitFile, read_toml(path), str(path)).permit


class PermitReader:
    """
    The permits of a course, read anew only where their file has changed.

    Parameters
    ----------
    path : Path
        As `read_permits` takes it.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._seen: tuple[int, ...] = ()
        self._permits: tuple[Permit, ...] = ()

    def read(self) -> tuple[Permit, ...]:
        """
        Return the permits as they are now.

        Returns
        -------
        tuple of Permit
            In the order of the file.

        Raises
        ------
        AuthorError
            With every finding, if anything is wrong with the file.
        """
        seen = _look(self._path)
        if seen != self._seen:
            self._permits = read_permits(self._path)
            self._seen = seen
        return self._permits


def _look(path: Path) -> tuple[int, ...]:
    """Tell one state of a file from another without reading it."""
    try:
        state = path.stat()
    except OSError:
        return ()
    return (state.st_ino, state.st_size, state.st_mtime_ns)


def encode_permits(permits: Iterable[Permit]) -> bytes:
    """
    Return permits as the content of their file.

    Parameters
    ----------
    permits : iterable of Permit
        At least one.

    Returns
    -------
    bytes
        TOML in UTF-8.
    """
    return "\n".join((_HEAD, *map(_write, permits))).encode()


def _write(permit: Permit) -> str:
    # The escapes of a text of TOML are those of JSON.
    student, lab, seal = map(json.dumps, (permit.student, permit.lab, permit.seal))
    return (
        f"[[permit]]\nstudent = {student}\nlab     = {lab}\n"
        f"at      = {permit.at.isoformat()}\nseal    = {seal}\n"
    )
