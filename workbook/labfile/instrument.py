"""
Instruments that a student reads: what one division is worth, and what to record.

A scale is read one digit further than its lines: to a tenth of the smallest
division, recorded to the power of ten that holds it. A digital display is
copied as it stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from workbook.errors import MatterError, nearest
from workbook.measure.units import Unit, read_unit


class Kind(Enum):
    """How an instrument shows its value."""

    #: A scale with a meniscus, numbers growing upwards.
    CYLINDER = "graduated cylinder"
    #: A display with digits.
    BALANCE = "balance"


@dataclass(frozen=True, slots=True)
class Instrument:
    """One instrument of the table."""

    name: str
    kind: Kind
    #: The largest value that it shows, in `unit`.
    capacity: Decimal
    #: One division of the scale, or one step of the display, in `unit`.
    division: Decimal
    #: The power of ten to which a reading is recorded.
    place: int
    #: How far an accepted reading may lie from the true one, in `unit`.
    allowance: Decimal
    unit: Unit

    @property
    def step(self) -> Decimal:
        """The smallest difference of two readings, in `unit`."""
        return Decimal(1).scaleb(self.place)


def _cylinder(capacity: str, division: str, place: int) -> Instrument:
    step = Decimal(1).scaleb(place)
    name = f"cylinder, {capacity} mL"
    size, line = Decimal(capacity), Decimal(division)
    return Instrument(name, Kind.CYLINDER, size, line, place, step, read_unit("mL"))


def _balance(capacity: str, step: str) -> Instrument:
    digits = Decimal(step)
    exponent = digits.as_tuple().exponent
    place = exponent if isinstance(exponent, int) else 0
    name = f"balance, {step} g"
    unit = read_unit("g")
    return Instrument(
        name, Kind.BALANCE, Decimal(capacity), digits, place, Decimal(0), unit
    )


#: Capacities and divisions of cylinders: ASTM E1272-02(2012), Table 1. One
#: estimated digit is recorded, and may be off by one: OpenStax, Chemistry 2e,
#: section 1.5. Balances: common practice, no source.
_TABLE = {
    instrument.name: instrument
    for instrument in (
        _cylinder("10", "0.1", -2),
        _cylinder("25", "0.5", -1),
        _cylinder("50", "1.0", -1),
        _cylinder("100", "1.0", -1),
        _balance("600", "0.1"),
        _balance("400", "0.01"),
        _balance("200", "0.001"),
        _balance("120", "0.0001"),
    )
}


def known_instruments() -> tuple[str, ...]:
    """
    Return the names of all instruments.

    Returns
    -------
    tuple of str
        Sorted.
    """
    return tuple(sorted(_TABLE))


def find_instrument(name: str) -> Instrument:
    """
    Return the instrument of that name.

    Parameters
    ----------
    name : str
        As a lab file writes it: ``"cylinder, 25 mL"``.

    Returns
    -------
    Instrument
        With its division, place and allowance.

    Raises
    ------
    MatterError
        If the table has no such instrument.

    Examples
    --------
    >>> find_instrument("cylinder, 25 mL").division
    Decimal('0.5')
    """
    try:
        return _TABLE[name]
    except KeyError:
        known = ", ".join(repr(each) for each in known_instruments())
        msg = (
            f"{name!r} is no instrument that is known here; known are {known}."
            f"{nearest(name, _TABLE)}"
        )
        raise MatterError(msg) from None
