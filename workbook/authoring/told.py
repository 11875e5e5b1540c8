"""A finding as a program can use it: its file, its line, and its sentence."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from msgspec import Struct
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.labfile.finding import Finding
    from workbook.labfile.position import Located

#: File, line and sentence as every finding is written: a drive's colon is no end.
_WRITTEN = re.compile(r"(?P<file>.+?):(?:(?P<line>[0-9]+):)? (?P<says>.*)", re.DOTALL)


class Told(Struct, frozen=True, order=True):
    """One finding."""

    file: str
    #: Counted from 1; None where the whole file is meant.
    line: int | None
    #: What stands there, what was expected, and what to do.
    says: str

    @override
    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{place}: {self.says}"


def read_told(finding: str) -> Told:
    """
    Return a written finding in its parts.

    Parameters
    ----------
    finding : str
        As an error of ours lists it.

    Returns
    -------
    Told
        Whose text is *finding* again.

    Raises
    ------
    ValueError
        If the text is no finding: a mistake of the caller.

    Examples
    --------
    >>> read_told("soap/lab.toml:12: the unit is missing.").line
    12
    """
    found = _WRITTEN.fullmatch(finding)
    if found is None:
        msg = f"{finding!r} does not start with a file."
        raise ValueError(msg)
    line = found["line"]
    return Told(found["file"], int(line) if line else None, found["says"])


def locate(
    findings: Iterable[Finding], located: Located, file: str
) -> tuple[Told, ...]:
    """
    Return findings with the lines on which they stand.

    Parameters
    ----------
    findings : iterable of Finding
        Places by their keys, each with a sentence.
    located : Located
        The text of the file, by line.
    file : str
        How the file is called.

    Returns
    -------
    tuple of Told
        In the order of lines.
    """
    told = {Told(file, located.line(place), says) for place, says in findings}
    return tuple(sorted(told, key=lambda each: (each.line or 0, each.says)))
