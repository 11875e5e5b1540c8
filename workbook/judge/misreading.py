"""
What a wrong reading makes of an instrument, by the known ways to misread one.

Later steps follow from a misreading, so that one slip at the scale costs one step.
They do not follow from a number that this instrument could not have been taken for:
that is somebody else's value, and following it would reward a copied sheet.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Final

from workbook.graph.slip import SlipKind
from workbook.labfile.instrument import Kind
from workbook.measure.rounding import write
from workbook.picture.plate import PITCH, TUBE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.instrument import Instrument, Pattern

#: Divisions by which a scale is misread: the wrong line, or the rim of the meniscus.
#: Common practice, no source.
_DIVISIONS = 2

#: So many digits differ where a display shows another value: one can be mistyped.
#: Common practice, no source.
_DIGITS = 2

#: How high the rim of a meniscus stands above its lowest point, as it is drawn
#: [division].
RIM: Final = Decimal(repr(TUBE.climb)) / Decimal(repr(PITCH))

#: What a division can be worth, with any power of ten [-].
_WORTHS = (1, 2, 5)

#: What a division is taken for, over what it is worth: the least and the most [-].
#: Common practice, no source.
_MISJUDGED = Decimal("0.2"), Decimal("2.5")

#: To what part of a division a scale is read [-].
_TENTH = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class Misreading:
    """A known way to misread an instrument, and what it makes of what is shown."""

    kind: SlipKind
    #: In the instrument's unit.
    value: Decimal
    #: How far the eye may be off besides, in the instrument's unit.
    reach: Decimal

    def fits(self, instrument: Instrument, typed: float) -> bool:
        """
        Tell whether a value is what this misreading leads to.

        Parameters
        ----------
        instrument : Instrument
            What was read.
        typed : float
            What was typed [the instrument's unit].

        Returns
        -------
        bool
            Half of the last digit that is recorded is allowed for.
        """
        off = abs(Decimal(repr(typed)) - self.value)
        return off <= self.reach + instrument.step / 2


def find_misreadings(instrument: Instrument, shown: float) -> tuple[Misreading, ...]:
    """
    Return the known ways to misread what an instrument shows.

    Parameters
    ----------
    instrument : Instrument
        What is read.
    shown : float
        What it shows [the instrument's unit].

    Returns
    -------
    tuple of Misreading
        None for an instrument of one volume; of a display only that two digits have
        changed places.

    Examples
    --------
    >>> from workbook.labfile.instrument import find_instrument
    >>> found = find_misreadings(find_instrument("burette, 50 mL"), 24.37)
    >>> [str(each.value) for each in found if each.kind is SlipKind.LINE_BELOW]
    ['24.3']
    """
    true = Decimal(repr(shown)).quantize(instrument.step)
    found = list(_swapped(instrument, true))
    if instrument.pattern is not None:
        found += _by_lines(instrument, true)
        found += _by_division(instrument, instrument.pattern, true)
    if instrument.reads_down and instrument.pattern is not None:
        found += _upwards(instrument, instrument.pattern, true)
    if instrument.pattern is not None and instrument.kind is not Kind.THERMOMETER:
        rise = RIM * instrument.division
        rim = true - rise if instrument.reads_down else true + rise
        found.append(Misreading(SlipKind.MENISCUS_RIM, rim, instrument.allowance))
    return tuple(found)


def is_misreading(instrument: Instrument, typed: float, shown: float) -> bool:
    """
    Tell whether an instrument could have been taken to show a value.

    Parameters
    ----------
    instrument : Instrument
        What was read.
    typed : float
        What was typed [the instrument's unit].
    shown : float
        What it shows [the instrument's unit].

    Returns
    -------
    bool
        True for a value near by, for one that a known way to misread leads to, and
        for a display with a digit mistyped.
    """
    if instrument.has_display and _is_miscopied(instrument, typed, shown):
        return True
    known = find_misreadings(instrument, shown)
    if any(each.fits(instrument, typed) for each in known):
        return True
    reach = _DIVISIONS * float(instrument.division)
    return not instrument.has_display and abs(typed - shown) <= reach


def _swapped(instrument: Instrument, true: Decimal) -> Iterator[Misreading]:
    """Exchange two digits that stand side by side."""
    if instrument.is_fixed:
        return
    digits = write(true).replace(".", "")
    for at in range(len(digits) - 1):
        one, other = digits[at], digits[at + 1]
        # No number is typed with a zero in front of its whole digits.
        starts = not digits[:at].strip("-")
        if one != other and one.isdecimal() and not (starts and other == "0"):
            swapped = Decimal(digits[:at] + other + one + digits[at + 2 :])
            value = swapped.scaleb(instrument.place)
            yield Misreading(SlipKind.DIGITS_SWAPPED, value, Decimal(0))


def _by_lines(instrument: Instrument, true: Decimal) -> Iterator[Misreading]:
    """Take a line of the scale for the reading."""
    for kind, rounding in (
        (SlipKind.LINE_BELOW, ROUND_FLOOR),
        (SlipKind.NEAREST_LINE, ROUND_HALF_UP),
    ):
        lines = (true / instrument.division).to_integral_value(rounding)
        yield Misreading(kind, lines * instrument.division, Decimal(0))


def _by_division(
    instrument: Instrument, pattern: Pattern, true: Decimal
) -> Iterator[Misreading]:
    """Count on from the number below with divisions of another worth."""
    below, above = _numbers_around(instrument, pattern, true)
    divisions = (true - below) / instrument.division
    for worth in _other_worths(instrument.division):
        value = below + divisions * worth
        # Nobody counts on past the next number that is printed.
        if value <= above:
            yield Misreading(SlipKind.DIVISION_MISJUDGED, value, worth * _TENTH)


def _other_worths(division: Decimal) -> Iterator[Decimal]:
    power, (least, most) = division.adjusted(), _MISJUDGED
    for place in range(power - 1, power + 2):
        for digit in _WORTHS:
            worth = Decimal(digit).scaleb(place)
            if least <= worth / division <= most and worth != division:
                yield worth


def _upwards(
    instrument: Instrument, pattern: Pattern, true: Decimal
) -> Iterator[Misreading]:
    """Count against the numbers: on past the one below, or back towards the other."""
    below, above = _numbers_around(instrument, pattern, true)
    for value in (2 * above - true, below + above - true):
        yield Misreading(SlipKind.COUNTED_UPWARDS, value, instrument.allowance)


def _numbers_around(
    instrument: Instrument, pattern: Pattern, true: Decimal
) -> tuple[Decimal, Decimal]:
    """Return the printed numbers that are not above a reading, and above it."""
    step = pattern.numbered * instrument.division
    below = (true / step).to_integral_value(ROUND_FLOOR) * step
    return below, below + step


def _is_miscopied(instrument: Instrument, typed: float, shown: float) -> bool:
    copied, right = (_digits(instrument, value) for value in (typed, shown))
    if len(copied) != len(right):
        return False
    return sum(one != other for one, other in zip(copied, right, strict=True)) < _DIGITS


def _digits(instrument: Instrument, value: float) -> str:
    number = Decimal(repr(value)).quantize(instrument.step)
    return write(number).replace(".", "")
