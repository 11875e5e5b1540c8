"""
What an instrument shows, in words.

A scale is told as the eye meets it: how many lines past a number the surface
stands, and how many tenths further. What a division is worth has to be found from
the numbers, as on the picture, so that the words are as hard to read and never state
the value. A digital display shows its digits.
"""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal
from typing import TYPE_CHECKING

from workbook.labfile.instrument import Instrument, Kind
from workbook.measure.rounding import write

if TYPE_CHECKING:
    from workbook.labfile.instrument import Pattern

_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_PLACES = (
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
)

_MENISCUS = "The lowest point of the meniscus"
_COLUMN = "The top of the column"


def describe(instrument: Instrument) -> str:
    """
    Return what an instrument is, as printed beside it.

    Parameters
    ----------
    instrument : Instrument
        One of the table.

    Returns
    -------
    str
        Kind, capacity and what one division is worth.
    """
    unit, kind = instrument.unit.symbol, instrument.kind.value
    step = f"{write(instrument.division)} {unit}"
    if instrument.has_display:
        tared = (
            ", tared with the empty vessel on its pan" if instrument.is_tared else ""
        )
        return f"{kind}, display in steps of {step}{tared}"
    capacity = f"{write(instrument.capacity)} {unit}"
    if instrument.is_fixed:
        return f"{kind}, printed on it: {print_on(instrument)}"
    if instrument.kind is Kind.THERMOMETER:
        return f"{kind}, up to {capacity}, one division is {step}"
    down = ", numbers grow downwards" if instrument.reads_down else ""
    return f"{kind}, {capacity}, one division is {step}{down}"


def print_on(instrument: Instrument) -> str:
    """
    Return what is printed on the glass beside the scale.

    Parameters
    ----------
    instrument : Instrument
        One of glass.

    Returns
    -------
    str
        Capacity, class, temperature of adjustment and limit of error; the unit alone
        where there is no limit.
    """
    unit = instrument.unit.symbol
    if not instrument.limit:
        return unit
    capacity = write(instrument.capacity.normalize())
    return f"{capacity} {unit}, A, 20 °C, ±{instrument.limit} {unit}"


def say(instrument: Instrument, shown: Decimal) -> str:
    """
    Return what an instrument shows.

    Parameters
    ----------
    instrument : Instrument
        One of the table.
    shown : Decimal
        Its value, in the instrument's unit, to its last place.

    Returns
    -------
    str
        One sentence, or the digits of a display with their unit.
    """
    if instrument.has_display:
        return f"{write(shown)} {instrument.unit.symbol}"
    if (pattern := instrument.pattern) is None:
        return f"{_MENISCUS} touches the ring."
    return _stand(instrument, pattern, shown)


def _stand(instrument: Instrument, pattern: Pattern, shown: Decimal) -> str:
    divisions = shown / instrument.division
    line = int(divisions.to_integral_value(ROUND_FLOOR))
    tenths = int((divisions - line) * 10)
    what = _COLUMN if instrument.kind is Kind.THERMOMETER else _MENISCUS
    past, way = ("below", "down") if instrument.reads_down else ("above", "up")
    if tenths == 0:
        return f"{what} touches {_name(instrument, pattern, line, past)}."
    plural = "tenth" if tenths == 1 else "tenths"
    return (
        f"{what} stands between {_between(instrument, pattern, line, past)}, "
        f"{_COUNTS[tenths]} {plural} of the way {way}."
    )


def _between(instrument: Instrument, pattern: Pattern, line: int, past: str) -> str:
    """Return the names of a line and the next."""
    count = line % pattern.numbered
    one = _name(instrument, pattern, line, past)
    if count == 0:
        return f"{one} and the first line {past} it"
    other = _name(instrument, pattern, line + 1, past)
    if count + 1 == pattern.numbered:
        return f"{one} and {other}"
    return f"the {_PLACES[count - 1]} and {other}"


def _name(instrument: Instrument, pattern: Pattern, line: int, past: str) -> str:
    """Return how a line is found: its number, or its count from the number before."""
    count = line % pattern.numbered
    value = (line - count) * instrument.division
    numbered = f"the line numbered {label(value)}"
    return f"the {_PLACES[count - 1]} line {past} {numbered}" if count else numbered


def label(value: Decimal) -> str:
    """
    Return the number of a line, as printed beside it.

    Parameters
    ----------
    value : Decimal
        What the line stands for.

    Returns
    -------
    str
        Without trailing zeros; a minus sign is one.

    Examples
    --------
    >>> label(Decimal("20.0")), label(Decimal("-10"))
    ('20', '−10')
    """
    return write(Decimal(0) + value.normalize()).replace("-", "−")
