"""
What a student sees of an instrument, in words.

A scale is described as the eye meets it: between which lines the meniscus stands,
and how far up. That is as hard to read as the picture, and never states the value.
A digital display shows its digits.
"""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal
from typing import TYPE_CHECKING

from workbook.labfile.instrument import Instrument, Kind
from workbook.measure.rounding import write

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity

_TENTHS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
)


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
    unit = instrument.unit.symbol
    step = f"{write(instrument.division)} {unit}"
    if instrument.kind is Kind.BALANCE:
        return f"{instrument.kind.value}, display in steps of {step}"
    capacity = f"{write(instrument.capacity)} {unit}"
    return f"{instrument.kind.value}, {capacity}, one division is {step}"


def see(quantity: Quantity, value: float) -> str:
    """
    Return what the instrument of a reading shows.

    Parameters
    ----------
    quantity : Quantity
        A reading.
    value : float
        Its true value [base unit].

    Returns
    -------
    str
        One sentence, or the digits of a display with their unit.

    Raises
    ------
    ValueError
        If the quantity has no instrument.
    """
    instrument = quantity.instrument
    if instrument is None:
        msg = f"{quantity.name!r} is not read off an instrument."
        raise ValueError(msg)
    shown = Decimal(repr(quantity.from_base(value))).quantize(instrument.step)
    if instrument.kind is Kind.BALANCE:
        return f"{write(shown)} {instrument.unit.symbol}"
    return _between_lines(instrument, shown)


def _between_lines(instrument: Instrument, shown: Decimal) -> str:
    unit = instrument.unit.symbol
    below = (shown / instrument.division).to_integral_value(ROUND_FLOOR)
    lower = below * instrument.division
    upper = lower + instrument.division
    tenths = int((shown - lower) * 10 / instrument.division)
    if tenths == 0:
        return (
            f"The lowest point of the meniscus touches the {write(lower)} {unit} line."
        )
    plural = "tenth" if tenths == 1 else "tenths"
    return (
        f"The lowest point of the meniscus stands between the {write(lower)} {unit} "
        f"line and the {write(upper)} {unit} line, {_TENTHS[tenths]} {plural} of the "
        "way up."
    )
