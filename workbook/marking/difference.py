"""Where an instructor's list and students differ: for a person to look at."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import TextError, UnitError
from workbook.marking.printable import to_printable
from workbook.measure.rounding import write
from workbook.measure.written import read_answer

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from decimal import Decimal

    from workbook.labfile.instrument import Instrument
    from workbook.marking.listed import Listed
    from workbook.marking.result import SheetMark
    from workbook.measure.numeral import Comma
    from workbook.solver.source import CourseSource

_DIFFERS = "The list and the student differ."
_NOT_NOTED = "The student noted none that could stand."
_NOT_LISTED = "The list has none for this student."


@dataclass(frozen=True, slots=True)
class Difference:
    """A reading on which list and student do not agree; no mark changes by it."""

    student: str
    lab: str
    reading: str
    #: As the student typed it; empty where nothing stands.
    typed: str
    #: As the list has it, unit included; empty where it has none.
    listed: str
    #: What the student's value is more than the list's, unit included.
    off: str
    reason: str


def find_differences(
    listed: Iterable[Listed],
    marks: Iterable[SheetMark],
    source: CourseSource,
) -> Iterator[Difference]:
    """
    Find where a list and what students noted differ.

    Parameters
    ----------
    listed : iterable of Listed
        The instructor's list.
    marks : iterable of SheetMark
        Of the hand-ins; whoever handed in nothing is left aside.
    source : CourseSource
        The course: its labs, and how it reads a comma.

    Yields
    ------
    Difference
        In the order of the marks. A reading that the list has for nobody is not held
        against anybody.
    """
    values = {(each.student, each.lab, each.reading): each.value for each in listed}
    comma = source.course.conventions.comma
    covered = {(lab, reading) for _, lab, reading in values}
    for mark in marks:
        for reading, instrument in source.labs[mark.lab].public.instruments.items():
            if (mark.lab, reading) not in covered:
                continue
            noted = mark.noted.get(reading, ())
            typed = noted[-1].text if noted else ""
            value = values.get((mark.student, mark.lab, reading))
            off, reason = _compare(typed, value, instrument, comma)
            if reason:
                yield Difference(
                    student=mark.student,
                    lab=mark.lab,
                    reading=reading,
                    typed=to_printable(typed),
                    listed="" if value is None else _print(value, instrument),
                    off="" if off is None else _print(off, instrument),
                    reason=reason,
                )


def _compare(
    typed: str, value: Decimal | None, instrument: Instrument, comma: Comma
) -> tuple[Decimal | None, str]:
    """Return by how much a text is off, and why a person should look; or nothing."""
    if value is None:
        return None, _NOT_LISTED if typed else ""
    try:
        written = read_answer(typed, instrument.unit, comma=comma)
    except (TextError, UnitError):
        return None, _NOT_NOTED
    off = written.in_unit(instrument.unit) - value
    return off, "" if abs(off) <= instrument.allowance else _DIFFERS


def _print(value: Decimal, instrument: Instrument) -> str:
    return f"{write(value)} {instrument.unit.symbol}"
