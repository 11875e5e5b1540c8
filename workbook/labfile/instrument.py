"""
Instruments that a student reads: how their scale is divided, and what to record.

A scale is read one digit further than its lines: to a tenth of the smallest
division, recorded to the power of ten that holds it. A digital display is
copied as it stands. The table is ``instruments.csv`` beside this module.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from importlib import resources

from workbook.errors import MatterError, nearest
from workbook.measure.units import Unit, read_unit


class Kind(Enum):
    """How an instrument shows its value."""

    #: A scale with a meniscus, numbers growing upwards.
    CYLINDER = "graduated cylinder"
    #: A scale with a meniscus, numbers growing downwards, over a stopcock.
    BURETTE = "burette"
    #: The same, over a tip.
    GRADUATED = "graduated pipette"
    #: One ring, for one volume.
    VOLUMETRIC = "volumetric pipette"
    #: A scale along a column of liquid.
    THERMOMETER = "liquid-in-glass thermometer"
    #: A display with digits, on an open pan.
    BALANCE = "top-loading balance"
    #: The same behind glass.
    ANALYTICAL = "analytical balance"


@dataclass(frozen=True, slots=True)
class Pattern:
    """Which lines of a scale stand out."""

    #: After so many divisions a long line stands, with its number.
    numbered: int
    #: After so many, a line of middle length.
    middle: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """One instrument of the table."""

    name: str
    kind: Kind
    #: The smallest value that it shows, in `unit`; a scale begins with a number.
    lowest: Decimal
    #: The largest value that it shows, in `unit`.
    capacity: Decimal
    #: One division of the scale, or one step of the display, in `unit`.
    division: Decimal
    #: The power of ten to which a reading is recorded.
    place: int
    #: How far an accepted reading may lie from the true one, in `unit`.
    allowance: Decimal
    unit: Unit
    #: None where there is no scale.
    pattern: Pattern | None
    #: The limit of error that is printed on the glass, in `unit`; empty for none.
    limit: str

    @property
    def step(self) -> Decimal:
        """The smallest difference of two readings, in `unit`."""
        return Decimal(1).scaleb(self.place)

    @property
    def has_display(self) -> bool:
        """Whether it shows digits."""
        return self.kind is Kind.BALANCE or self.kind is Kind.ANALYTICAL

    @property
    def is_tared(self) -> bool:
        """Whether its display counts the vessel on the pan as nothing."""
        return self.has_display and self.name.startswith("tared ")

    @property
    def is_fixed(self) -> bool:
        """Whether there is only one value that it can show."""
        return self.lowest == self.capacity

    @property
    def reads_down(self) -> bool:
        """Whether the numbers of its scale grow downwards."""
        return self.kind is Kind.BURETTE or self.kind is Kind.GRADUATED


def _read_row(row: dict[str, str]) -> Instrument:
    numbered, middle = row["numbered"], row["middle"]
    return Instrument(
        name=row["name"],
        kind=Kind(row["kind"]),
        lowest=Decimal(row["lowest"]),
        capacity=Decimal(row["capacity"]),
        division=Decimal(row["division"]),
        place=int(row["place"]),
        allowance=Decimal(row["allowance"]),
        unit=read_unit(row["unit"]),
        pattern=Pattern(int(numbered), int(middle)) if numbered else None,
        limit=row["limit"],
    )


def _load() -> dict[str, Instrument]:
    text = resources.files(__package__).joinpath("instruments.csv").read_text("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return {row["name"]: _read_row(row) for row in csv.DictReader(lines)}


_TABLE = _load()


def known_instruments() -> tuple[str, ...]:
    """
    Return the names of all instruments.

    Returns
    -------
    tuple of str
        Sorted.
    """
    return tuple(sorted(_TABLE))


def is_fixed(name: str) -> bool:
    """
    Return whether an instrument of that name can show one value only.

    Parameters
    ----------
    name : str
        As a lab file writes it; it may be no instrument at all.

    Returns
    -------
    bool
        True for a pipette with one ring.

    Examples
    --------
    >>> is_fixed("volumetric pipette, 25 mL"), is_fixed("cylinder, 25 mL")
    (True, False)
    """
    return name in _TABLE and _TABLE[name].is_fixed


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
