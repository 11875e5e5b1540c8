"""
Which lines of a scale stand in a window, and where.

The window, and where it stands in the drawing, follow from the pattern of the
scale. So a coordinate is no reading: whoever takes the drawing apart has to find two
numbered lines, count the lines between, and measure how far past one of them the
surface stands, which is what the eye does with the picture. A drawing can't be
harder than that for a program, since the eye is given the same coordinates.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from workbook.picture.words import label

if TYPE_CHECKING:
    from decimal import Decimal

    from workbook.labfile.instrument import Instrument, Pattern

#: Divisions that the drawing of a whole instrument has room for [-].
ROOM = 50


class Length(Enum):
    """How far a line of a scale runs."""

    SHORT = "short"
    MIDDLE = "middle"
    LONG = "long"


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a scale."""

    y: float
    length: Length
    #: Its number, as printed; empty for most.
    label: str


@dataclass(frozen=True, slots=True)
class Window:
    """Part of a scale, and where it stands in a drawing."""

    instrument: Instrument
    pattern: Pattern
    #: Divisions from zero to the first and last line that can stand in it.
    first: int
    last: int
    #: The divisions that stand at the height `y`, counted from zero.
    origin: float
    y: float
    #: Height of one division.
    pitch: float

    def height(self, divisions: float) -> float:
        """
        Return where something stands.

        Parameters
        ----------
        divisions : float
            Counted from zero [-].

        Returns
        -------
        float
            Downwards, in units of the drawing [-].
        """
        past = (divisions - self.origin) * self.pitch
        return self.y + past if self.instrument.reads_down else self.y - past

    def lines(self) -> tuple[Line, ...]:
        """
        Return the lines of the window.

        Returns
        -------
        tuple of Line
            In the order of their numbers.
        """
        return tuple(self._line(count) for count in range(self.first, self.last + 1))

    def long_lines(self) -> tuple[Line, ...]:
        """
        Return the long lines of the window, without their numbers.

        Returns
        -------
        tuple of Line
            In the order of their numbers.
        """
        step = self.pattern.numbered
        first = -(-self.first // step) * step
        return tuple(
            Line(self.height(count), Length.LONG, "")
            for count in range(first, self.last + 1, step)
        )

    @property
    def starts(self) -> bool:
        """Whether the scale begins in the window."""
        return self.first == ends_of(self.instrument)[0]

    @property
    def ends(self) -> bool:
        """Whether the scale ends in the window."""
        return self.last == ends_of(self.instrument)[1]

    @property
    def top(self) -> float:
        """The height of its upper line."""
        return min(self.height(self.first), self.height(self.last))

    @property
    def bottom(self) -> float:
        """The height of its lower line."""
        return max(self.height(self.first), self.height(self.last))

    def _line(self, count: int) -> Line:
        if count % self.pattern.numbered == 0:
            number = label(count * self.instrument.division)
            return Line(self.height(count), Length.LONG, number)
        is_middle = count % self.pattern.middle == 0
        length = Length.MIDDLE if is_middle else Length.SHORT
        return Line(self.height(count), length, "")


def divisions_of(instrument: Instrument, shown: Decimal) -> float:
    """
    Return how far along its scale an instrument stands.

    Parameters
    ----------
    instrument : Instrument
        One with a scale.
    shown : Decimal
        Its value, in the instrument's unit.

    Returns
    -------
    float
        In divisions, counted from zero [-].
    """
    return float(shown / instrument.division)


def ends_of(instrument: Instrument) -> tuple[int, int]:
    """
    Return where a scale begins and ends.

    Parameters
    ----------
    instrument : Instrument
        One with a scale.

    Returns
    -------
    tuple of int
        In divisions, counted from zero.
    """
    return (
        int(instrument.lowest / instrument.division),
        int(instrument.capacity / instrument.division),
    )


def choose_part(instrument: Instrument, pattern: Pattern, divisions: float) -> range:
    """
    Return the part of a scale that is drawn.

    Parameters
    ----------
    instrument : Instrument
        One with a scale.
    pattern : Pattern
        Its pattern.
    divisions : float
        Where it stands, counted from zero [-].

    Returns
    -------
    range
        From one number to another, in divisions; the whole scale where there is room.
    """
    low, high = ends_of(instrument)
    step = pattern.numbered
    first = round((divisions - ROOM / 2) / step) * step
    first = max(low, min(first, high - ROOM))
    return range(first, min(first + ROOM, high) + 1)
