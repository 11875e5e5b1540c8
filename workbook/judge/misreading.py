"""
Whether a wrong reading is a misreading of one's own instrument.

Later steps follow from a misreading, so that one slip at the scale costs one step.
They do not follow from a number that this instrument could not have been taken for:
that is somebody else's value, and following it would reward a copied sheet.
"""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.measure.rounding import write

if TYPE_CHECKING:
    from workbook.labfile.instrument import Instrument

#: Divisions by which a scale is misread: the wrong line, or the rim of the meniscus.
#: Common practice, no source.
_DIVISIONS = 2

#: Digits that differ when a display is copied wrongly: one mistyped, or two that
#: have changed places. Common practice, no source.
_DIGITS = 2


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
        True for a value near by, for a scale whose numbers grow downwards read
        upwards, and for a display with a digit mistyped or two exchanged.
    """
    if instrument.has_display:
        return _is_miscopied(instrument, typed, shown)
    reach = _DIVISIONS * float(instrument.division)
    near = [shown]
    if instrument.reads_down:
        # Counted the wrong way from the number above, or from the one below.
        below, above = math.floor(shown), math.ceil(shown)
        near += [2 * above - shown, below + above - shown]
    return any(abs(typed - value) <= reach for value in near)


def _is_miscopied(instrument: Instrument, typed: float, shown: float) -> bool:
    copied, right = (_digits(instrument, value) for value in (typed, shown))
    if len(copied) != len(right):
        return False
    wrong = [at for at, digit in enumerate(copied) if digit != right[at]]
    if len(wrong) < _DIGITS:
        return True
    first, *_, last = wrong
    swapped = copied[first] == right[last] and copied[last] == right[first]
    return len(wrong) == _DIGITS and last == first + 1 and swapped


def _digits(instrument: Instrument, value: float) -> str:
    number = Decimal(repr(value)).quantize(instrument.step)
    return write(number).replace(".", "")
