"""
Extensions that were given while a course runs, in a file of their own.

It stands beside the course file, which is an instructor's own text and is never written
by a program. What stands in either counts.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated

from pydantic import AwareDatetime, Field

from workbook.errors import AuthorError, nearest
from workbook.labfile.calendar import ExtensionTable
from workbook.labfile.position import read_toml
from workbook.labfile.reader import validate
from workbook.labfile.table import Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

#: The file beside the course file.
EXTENSION_FILE = "course.extensions.toml"

_HEAD = """\
# Written by `workbook extend`: more time for one student and one lab. Of several the
# last counts; one that ends before the lab is due for everybody changes nothing. Take a
# table away to take the time back.
"""


class Extension(ExtensionTable):
    """``[[extension]]``: more time for one student and one lab."""

    due: AwareDatetime
    #: When it was given.
    at: AwareDatetime


class ExtensionFile(Table):
    """The whole file."""

    extension: Annotated[tuple[Extension, ...], Field(min_length=1)]


def read_extensions(path: Path, labs: Sequence[str]) -> tuple[Extension, ...]:
    """
    Return the extensions that were given while a course runs.

    Parameters
    ----------
    path : Path
        What `encode_extensions` gave, in a file; it need not be there.
    labs : sequence of str
        The labs of the course.

    Returns
    -------
    tuple of Extension
        In the order of the file.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    if not path.exists():
        return ()
    located = read_toml(path)
    found = validate(ExtensionFile, located, str(path)).extension
    findings = tuple(
        f"{path}:{located.line(('extension', index, 'lab'))}: {each.lab!r} is no lab "
        f"of this course.{nearest(each.lab, labs)}"
        for index, each in enumerate(found)
        if each.lab not in labs
    )
    if findings:
        raise AuthorError(findings)
    return found


def encode_extensions(extensions: Iterable[Extension]) -> bytes:
    """
    Return extensions as the content of their file.

    Parameters
    ----------
    extensions : iterable of Extension
        At least one.

    Returns
    -------
    bytes
        TOML in UTF-8.
    """
    return "\n".join((_HEAD, *map(_write, extensions))).encode()


def _write(extension: Extension) -> str:
    return "[[extension]]\n" + "".join(f"{line}\n" for line in _list_lines(extension))


def _list_lines(extension: Extension) -> Iterator[str]:
    yield f"student = {_quote(extension.student)}"
    yield f"lab     = {_quote(extension.lab)}"
    yield f"due     = {extension.due.isoformat()}"
    yield f"reason  = {_quote(extension.reason)}"
    yield f"at      = {extension.at.isoformat()}"


def _quote(text: str) -> str:
    # The escapes of a text of TOML are those of JSON, and one more is needed.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
