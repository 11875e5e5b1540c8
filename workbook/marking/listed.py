"""
An instructor's list of what the balances showed, read and looked through.

It is a CSV file, one reading a row: ``student``, ``reading`` (its name in the lab
file), ``value`` with its unit, and ``lab`` where two labs have a reading of that name.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AuthorError, TextError, UnitError, nearest
from workbook.labfile.listfile import Layout, Row, explain_length, read_rows
from workbook.measure.rounding import write
from workbook.measure.written import Comma, read_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from decimal import Decimal
    from pathlib import Path

    from workbook.labfile.half import Lab
    from workbook.labfile.instrument import Instrument

_LAYOUT = Layout("list of readings", ("student", "reading", "value"), ("lab",))


@dataclass(frozen=True, slots=True)
class Listed:
    """One row: what an instrument showed a student."""

    student: str
    lab: str
    reading: str
    #: In the unit of its instrument.
    value: Decimal


def read_listed(
    path: Path, labs: Mapping[str, Lab], students: Iterable[str]
) -> tuple[Listed, ...]:
    """
    Return the readings of an instructor's list.

    Parameters
    ----------
    path : Path
        A CSV file in UTF-8, with or without a byte order mark.
    labs : mapping of str to Lab
        The labs of the course, by name.
    students : iterable of str
        The ids of the roster.

    Returns
    -------
    tuple of Listed
        In the order of the file.

    Raises
    ------
    AuthorError
        With every finding: a student, lab or reading that is not known, a value that
        its instrument does not show, a reading that stands there twice.
    """
    head, *body = read_rows(path, _LAYOUT)
    known = frozenset(students)
    findings: list[str] = []
    seen: dict[tuple[str, str, str], int] = {}
    found: list[Listed] = []
    for row in body:
        each = _read_row(head, row, labs, known)
        if isinstance(each, Listed):
            first = seen.setdefault((each.student, each.lab, each.reading), row.line)
            found.append(each)
            each = "" if first == row.line else _say_twice(each, first)
        if each:
            findings.append(f"{path}:{row.line}: {each}")
    if findings:
        raise AuthorError(tuple(findings))
    return tuple(found)


def _say_twice(listed: Listed, line: int) -> str:
    return (
        f"the reading {listed.reading!r} of {listed.student!r} stands in line {line} "
        "already; keep one."
    )


def _read_row(
    head: Row, row: Row, labs: Mapping[str, Lab], students: frozenset[str]
) -> Listed | str:
    """Return what a row says, or what is wrong with it."""
    if wrong := explain_length(head, row):
        return wrong
    cells = dict(zip(head.cells, row.cells, strict=True))
    student, reading = cells["student"], cells["reading"]
    if student not in students:
        hint = nearest(student, students)
        return f"no student {student!r} is in the roster.{hint}"
    places = _find_places(reading, cells.get("lab", ""), labs)
    if len(places) != 1:
        return _explain_places(reading, cells.get("lab", ""), places, labs)
    value = _read_value(cells["value"], labs[places[0]].public.instruments[reading])
    return (
        value if isinstance(value, str) else Listed(student, places[0], reading, value)
    )


def _find_places(reading: str, lab: str, labs: Mapping[str, Lab]) -> list[str]:
    """Return the labs that have a reading of that name, or the one that is named."""
    found = [name for name, each in labs.items() if reading in each.public.windows]
    return [name for name in found if lab in {"", name}]


def _explain_places(
    reading: str, lab: str, places: list[str], labs: Mapping[str, Lab]
) -> str:
    if lab and lab not in labs:
        return f"no lab {lab!r} is in the course.{nearest(lab, labs)}"
    if places:
        named = " and ".join(map(repr, places))
        return f"{named} both have a reading {reading!r}; add a column 'lab'."
    known = {name for each in labs.values() for name in each.public.windows}
    where = f"of {lab!r}" if lab else "of this course"
    return f"{reading!r} is no own reading {where}.{nearest(reading, known)}"


def _read_value(text: str, instrument: Instrument) -> Decimal | str:
    unit = instrument.unit
    try:
        written = read_answer(text, unit, comma=Comma.DECIMAL)
    except (TextError, UnitError) as error:
        return f"{text!r}: {error}"
    if written.unit is None:
        return f"{text!r} has no unit; write it with {unit.symbol}."
    finest = 2 * written.half_unit(unit)
    # The zeros of 24500 mg may count, or only fill.
    coarsest = finest.scaleb(written.figures - written.least_figures)
    if not finest <= instrument.step <= coarsest:
        return (
            f"{text!r} does not have the digits of {instrument.name!r}; write it to "
            f"{write(instrument.step)} {unit.symbol}."
        )
    return written.in_unit(unit)
