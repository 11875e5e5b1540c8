"""
When a hand-in came in, and who says so.

A hand-in bears the time of the student's own computer, under the checker's seal. It
can't be changed afterwards without breaking the seal, but whoever sets a clock back
before handing in has an earlier time. So a course that counts lateness gives a list of
the times at which its own system took the files in, or, where nobody copied the files
since, lets the files' own times count.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING

from workbook.errors import AuthorError

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from workbook.marking.entry import Entry

#: The columns of a list of times.
_COLUMNS = ["file", "received"]

#: A student's clock may be so far ahead before it is worth a remark.
_AHEAD = timedelta(minutes=10)


@dataclass(frozen=True, slots=True)
class Clock:
    """Whose time counts."""

    zone: tzinfo = UTC
    #: The times of a list, by the path or the name of a file.
    listed: Mapping[str, datetime] | None = None
    #: Whether the files' own times count.
    trusts_files: bool = field(default=False)

    def read(self, entry: Entry) -> datetime | None:
        """
        Return when a file came in, by another clock than the student's.

        Parameters
        ----------
        entry : Entry
            The file.

        Returns
        -------
        datetime or None
            None where nobody says.
        """
        if self.listed is not None:
            name = entry.name.rpartition("/")[2]
            return self.listed.get(entry.name, self.listed.get(name))
        return entry.written(self.zone) if self.trusts_files else None

    def remark(self, own: datetime, received: datetime | None) -> str:
        """
        Return what is to be said of a hand-in's times.

        Parameters
        ----------
        own : datetime
            The time that it bears.
        received : datetime or None
            When it came in, by another clock.

        Returns
        -------
        str
            A sentence, or the empty text.
        """
        if received is None:
            is_asked = self.listed is not None or self.trusts_files
            return "No other time is known than its own." if is_asked else ""
        if own > received + _AHEAD:
            return "By its own time it was written after it came in."
        return ""


def read_received(path: Path, zone: tzinfo) -> dict[str, datetime]:
    """
    Return the times of a list.

    Parameters
    ----------
    path : Path
        A CSV file with the columns file and received; a file is named by its path below
        the folder of hand-ins or in the ZIP, or by its name alone.
    zone : tzinfo
        The time zone of times that name none.

    Returns
    -------
    dict of str to datetime
        With their time zones.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        finding = f"{path}: the list can't be read as UTF-8: {error}."
        raise AuthorError((finding,)) from error
    rows = csv.reader(io.StringIO(text, newline=""))
    if next(rows, None) != _COLUMNS:
        finding = f"{path}:1: the columns are {' and '.join(_COLUMNS)}."
        raise AuthorError((finding,))
    found: dict[str, datetime] = {}
    findings = []
    for cells in filter(None, rows):
        try:
            name, said = cells
            at = datetime.fromisoformat(said)
        except ValueError:
            findings.append(
                f"{path}:{rows.line_num}: {','.join(cells)!r} is no file with a time; "
                f"write it like 'a1.handin.json,2026-10-12 16:58'."
            )
        else:
            found[name] = at if at.tzinfo is not None else at.replace(tzinfo=zone)
    if findings:
        raise AuthorError(tuple(findings))
    return found
