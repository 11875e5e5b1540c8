"""Guesses: plausible numbers that were not worked out, and how often they are right."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.measure.rounding import Ties, round_figures

if TYPE_CHECKING:
    import random

    from workbook.judge.own import Own

#: A guess lies within this factor of the right value, up or down [-].
REACH = 10.0

#: Figures of a guess where the right value is exact [-].
_USUAL = 3


def guess(own: Own, chance: random.Random) -> Decimal:
    """
    Return a guess at a value.

    Parameters
    ----------
    own : Own
        Where an honest student would stand.
    chance : random.Random
        Spreads guesses evenly over the powers of ten.

    Returns
    -------
    Decimal
        In base units, with the figures that a right value has.
    """
    power = chance.uniform(-1, 1)
    value = own.value * REACH**power
    return round_figures(Decimal(repr(value)), _figures(own), Ties.EVEN)


def chance_of_right(own: Own, widening: float) -> float:
    """
    Return how often such a guess lies in the band of right values.

    Parameters
    ----------
    own : Own
        Where an honest student would stand.
    widening : float
        What the author adds to the band on each side [base unit].

    Returns
    -------
    float
        The share of all guesses [-], from the width of the band alone.
    """
    magnitude = math.floor(math.log10(abs(own.value)))
    step = 10.0 ** (magnitude - _figures(own) + 1)
    low, high = sorted((abs(own.span.low), abs(own.span.high)))
    # Guesses lie on a grid of their last digit; those count whose rounding meets it.
    first = math.ceil((low - widening) / step - _TYPED) - 0.5
    last = math.floor((high + widening) / step + _TYPED) + 0.5
    return max(math.log10(last / first), 0.0) / 2 if last > first > 0 else 0.0


#: Half a unit in the last typed place, and what floats lose [-].
_TYPED = 0.5 + 1e-9


def _figures(own: Own) -> int:
    return own.known.figures or _USUAL
