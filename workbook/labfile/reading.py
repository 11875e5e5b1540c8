"""Rules on readings: their instrument, and the range from which each is drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import MatterError
from workbook.labfile.instrument import find_instrument
from workbook.measure.rounding import write
from workbook.measure.units import convert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.field import DrawRange
    from workbook.labfile.finding import Finding
    from workbook.labfile.instrument import Instrument
    from workbook.labfile.schema import LabFile


def readings_can_be_shown(file: LabFile) -> Iterator[Finding]:
    """
    Find readings whose instrument is unknown, or can't show what is drawn.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each reading.
    """
    for key, reading in file.readings.items():
        try:
            instrument = find_instrument(reading.instrument)
        except MatterError as error:
            yield ("readings", key, "instrument"), str(error)
            continue
        if reading.draw and (sentence := explain_range(reading.draw, instrument)):
            yield ("readings", key, "draw"), sentence


def explain_range(draw: DrawRange, instrument: Instrument) -> str:
    """
    Return what is wrong with a range of values that an instrument is to show.

    Parameters
    ----------
    draw : DrawRange
        The range.
    instrument : Instrument
        What shows them.

    Returns
    -------
    str
        A sentence, or the empty text.
    """
    shown = instrument.unit
    if draw.unit.dimension != shown.dimension:
        return (
            f"the range is in {draw.unit.symbol}, but {instrument.name!r} shows "
            f"{shown.symbol}."
        )
    low, high = (convert(bound, draw.unit, shown) for bound in (draw.low, draw.high))
    if low < instrument.lowest or high > instrument.capacity:
        return (
            f"the range goes from {write(low)} to {write(high)} {shown.symbol}, but "
            f"{instrument.name!r} shows {write(instrument.lowest)} to "
            f"{write(instrument.capacity)} {shown.symbol}."
        )
    count = len(draw.steps(shown, instrument.place))
    if count > 1:
        return ""
    return (
        f"the range holds {count} of the values that {instrument.name!r} shows, in "
        f"steps of {write(instrument.step)} {shown.symbol}; widen it."
    )
