"""Rules on ranges: both ends are read before, and on scales of one kind."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from workbook.errors import MatterError, nearest
from workbook.labfile.instrument import find_instrument
from workbook.labfile.kind import RangeTable
from workbook.labfile.schema import ReadingTable
from workbook.labfile.step import placed_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.instrument import Instrument
    from workbook.labfile.schema import LabFile


def ranges_have_ends(file: LabFile) -> Iterator[Finding]:
    """
    Find ranges whose ends are no readings, are not read before, or differ in kind.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    read: set[str] = set()
    for place, step in placed_steps(file):
        if isinstance(step, ReadingTable):
            read.add(step.of)
        elif isinstance(step, RangeTable):
            for sentence in _wrong(file, step, read):
                yield (*place, "of"), sentence


def _wrong(file: LabFile, step: RangeTable, read: set[str]) -> Iterator[str]:
    for name in step.of:
        if name not in file.readings:
            hint = nearest(name, file.readings)
            yield f"{name!r} is no reading of this file.{hint}"
        elif name not in read:
            yield (
                f"{name!r} is not read before the range is asked; add a step of "
                'kind = "reading" above it.'
            )
    if len({(each.unit, each.place) for each in _instruments(file, step)}) > 1:
        yield (
            f"{' and '.join(map(repr, step.of))} are read in different units, or to "
            "different digits; a range has one unit."
        )


def _instruments(file: LabFile, step: RangeTable) -> Iterator[Instrument]:
    for name in step.of:
        if name in file.readings:
            with suppress(MatterError):  # told by the rule on readings
                yield find_instrument(file.readings[name].instrument)
