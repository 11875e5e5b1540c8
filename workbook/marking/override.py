"""
What persons give by hand: points for a text or in place of what the rules gave.

Each decision is a line that is added to a CSV file beside the course file, so that
several markers can work at once, every decision stays on record, and a re-marking
finds them all. The columns are

- ``at``: when it was decided, with its time zone;
- ``student``, ``lab``, ``step``: for what; without a step, for the whole sheet;
- ``points``: what counts; left empty, what the rules give counts again;
- ``reason``: why, in words that the student may read;
- ``marker``: who decided.

The last line for the same thing stands.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

from workbook.errors import AuthorError, TaskError
from workbook.marking.printable import from_cell, to_cell, to_printable
from workbook.marking.wording import say_points
from workbook.store import append_line

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from workbook.marking.result import SheetMark

#: Lies beside the course file.
OVERRIDES_FILE = "course.overrides.csv"

#: The columns, in their order.
COLUMNS = ("at", "student", "lab", "step", "points", "reason", "marker")

#: More than a sheet is ever worth [point].
_MAX_POINTS = 100_000

#: The longest reason and the longest name of a marker [-].
_MAX_LENGTH = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Override:
    """One decision of a person."""

    #: With its time zone.
    at: datetime
    student: str
    lab: str
    #: Empty for the whole sheet.
    step: str
    #: None withdraws an earlier decision.
    points: Decimal | None
    reason: str
    marker: str

    @property
    def place(self) -> tuple[str, str, str]:
        """What it is for: student, lab and step."""
        return self.student, self.lab, self.step


def add_override(path: Path, override: Override) -> None:
    """
    Add a decision to a file of them.

    Parameters
    ----------
    path : Path
        The file; it is made when it does not exist.
    override : Override
        The decision.

    Raises
    ------
    TaskError
        If it says nothing that could be read again, or the disk refuses.
    """
    if wrong := "; ".join(_find_faults(override)):
        msg = f"The decision can't be kept: {wrong}."
        raise TaskError(msg)
    try:
        if not path.exists():
            append_line(path, ",".join(COLUMNS).encode(), is_forced=False)
        append_line(path, _encode(override), is_forced=True)
    except OSError as error:
        msg = f"{path} can't be written: {error.strerror}."
        raise TaskError(msg) from error


def read_overrides(path: Path) -> tuple[Override, ...]:
    """
    Return the decisions of a file, those that were replaced included.

    Parameters
    ----------
    path : Path
        What `add_override` or a person wrote; it need not be there.

    Returns
    -------
    tuple of Override
        In the order of the file.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    if not path.exists():
        return ()
    findings: list[str] = []
    found: list[Override] = []
    for line, cells in _read_rows(path):
        # Two markers who begin at once both write the head.
        if line == 1 or tuple(cells) == COLUMNS:
            if tuple(cells) != COLUMNS:
                findings.append(f"{path}:1: the columns are {', '.join(COLUMNS)}.")
            continue
        override = _decode(cells)
        if isinstance(override, str):
            findings.append(f"{path}:{line}: {override}")
        else:
            found.append(override)
    if findings:
        raise AuthorError(tuple(findings))
    return tuple(found)


def list_standing(
    overrides: Iterable[Override],
) -> Mapping[tuple[str, str, str], Override]:
    """
    Return the decisions that stand.

    Parameters
    ----------
    overrides : iterable of Override
        In the order of deciding.

    Returns
    -------
    mapping of tuple of str to Override
        By student, lab and step; what was withdrawn is left out.
    """
    last = {each.place: each for each in overrides}
    return {place: each for place, each in last.items() if each.points is not None}


def find_idle(
    overrides: Iterable[Override], marks: Mapping[tuple[str, str], SheetMark]
) -> tuple[str, ...]:
    """
    Return the decisions that found nothing to act on, or give more than there is.

    Parameters
    ----------
    overrides : iterable of Override
        In the order of deciding.
    marks : mapping of (str, str) to SheetMark
        All that were marked, by lab and student.

    Returns
    -------
    tuple of str
        A sentence for each: the student may have left, or a step have been renamed.
    """
    said = []
    for place, each in list_standing(overrides).items():
        given = each.points or Decimal(0)
        what = f"What {each.marker} gave for {' / '.join(filter(None, place))}"
        most = _find_worth(marks.get((each.lab, each.student)), each.step)
        if most is None:
            said.append(f"{what} found no such step or sheet among what was marked.")
        elif given > most:
            said.append(f"{what} is {say_points(given)}, of {say_points(most)} in all.")
    return tuple(map(to_printable, said))


def _find_worth(mark: SheetMark | None, step: str) -> Decimal | None:
    """Return what a step is worth, or a sheet; None where there is none."""
    if mark is None or not step:
        return None if mark is None else mark.out_of
    return next((each.out_of for each in mark.steps if each.step == step), None)


def _encode(override: Override) -> bytes:
    text = io.StringIO(newline="")
    points = "" if override.points is None else say_points(override.points)
    said = map(to_cell, (override.reason.strip(), override.marker.strip()))
    cells = (override.at.isoformat(), *override.place, points, *said)
    csv.writer(text).writerow(cells)
    return text.getvalue().removesuffix("\r\n").encode()


def _read_rows(path: Path) -> Iterator[tuple[int, list[str]]]:
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        msg = f"{path}: the file can't be read: {error.strerror}."
        raise AuthorError((msg,)) from error
    except UnicodeDecodeError as error:
        msg = f"{path}: the file is not UTF-8; save it as CSV in UTF-8."
        raise AuthorError((msg,)) from error
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    line = 1
    try:
        for cells in reader:
            if cells:
                yield line, cells
            line = reader.line_num + 1
    except csv.Error as error:
        msg = f"{path}:{line}: the row is no CSV ({error}); look at its quotes."
        raise AuthorError((msg,)) from error


def _decode(cells: list[str]) -> Override | str:
    """Return a decision, or the sentence that says why there is none."""
    if len(cells) != len(COLUMNS):
        return f"{len(cells)} cells stand here, and {len(COLUMNS)} are expected."
    at, student, lab, step, points, reason, marker = cells
    try:
        override = Override(
            at=datetime.fromisoformat(at),
            student=student,
            lab=lab,
            step=step,
            points=Decimal(points) if points else None,
            reason=from_cell(reason),
            marker=from_cell(marker),
        )
    except ValueError:
        return f"{at!r} is no time; write it like '2026-10-12T17:00+01:00'."
    except InvalidOperation:
        return f"{points!r} is no number of points; write it like '1.5'."
    wrong = "; ".join(_find_faults(override))
    return f"{wrong}." if wrong else override


def _find_faults(override: Override) -> Iterator[str]:
    if override.at.tzinfo is None:
        yield "the time has no time zone"
    if not override.student or not override.lab:
        yield "a student and a lab are needed"
    points = override.points
    if points is not None and not (points.is_finite() and 0 <= points <= _MAX_POINTS):
        yield f"the points are {points}, and a number from 0 to {_MAX_POINTS} is needed"
    if not override.reason.strip():
        yield "a reason is needed, which the student may read"
    if not override.marker.strip():
        yield "the name of a marker is needed"
    if max(len(override.reason), len(override.marker)) > _MAX_LENGTH:
        yield f"a text has more than {_MAX_LENGTH} characters"
