"""Rounding to figures and to places, in decimal arithmetic."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP, Context, Decimal
from enum import Enum

#: Digits that are carried between roundings; far more than any measurement has.
CARRIED = Context(prec=60)


class Ties(Enum):
    """What becomes of a digit exactly half way: sources differ, a course chooses."""

    #: To the even neighbour.
    EVEN = "even"
    #: Away from zero.
    UP = "up"


_MODES = {Ties.EVEN: ROUND_HALF_EVEN, Ties.UP: ROUND_HALF_UP}


def round_figures(value: Decimal, figures: int, ties: Ties) -> Decimal:
    """
    Return a value rounded to a number of significant figures.

    Parameters
    ----------
    value : Decimal
        Finite.
    figures : int
        At least 1.
    ties : Ties
        The rule for a digit exactly half way.

    Returns
    -------
    Decimal
        With exactly so many digits, trailing zeros included.

    Examples
    --------
    >>> write(round_figures(Decimal("6.9749515"), 5, Ties.EVEN))
    '6.9750'
    """
    return _round_with(value, figures, _MODES[ties])


def round_up(value: Decimal, figures: int) -> Decimal:
    """
    Return an uncertainty or an allowance, never made smaller by rounding.

    Parameters
    ----------
    value : Decimal
        Finite.
    figures : int
        At least 1.

    Returns
    -------
    Decimal
        Rounded away from zero, with exactly so many digits.

    Examples
    --------
    >>> write(round_up(Decimal("10.47"), 2))
    '11'
    """
    return _round_with(value, figures, ROUND_UP)


def _round_with(value: Decimal, figures: int, mode: str) -> Decimal:
    # Two steps, because rounding can carry: 9.96 to two figures is 10, not 10.0.
    rounded = Context(prec=figures, rounding=mode).plus(value)
    place = Decimal((0, (1,), rounded.adjusted() - figures + 1))
    return rounded.quantize(place, context=Context(prec=figures))


def round_place(value: Decimal, place: int, ties: Ties) -> Decimal:
    """
    Return a value rounded to a place.

    Parameters
    ----------
    value : Decimal
        Finite.
    place : int
        Power of ten of the last digit that is kept: -2 for hundredths, 1 for tens.
    ties : Ties
        The rule for a digit exactly half way.

    Returns
    -------
    Decimal
        With its last digit in that place.

    Examples
    --------
    >>> write(round_place(Decimal("56.533") - Decimal("55.8752"), -3, Ties.EVEN))
    '0.658'
    """
    digits = max(value.adjusted() - place + 2, 1)
    context = Context(prec=digits, rounding=_MODES[ties])
    return value.quantize(Decimal((0, (1,), place)), context=context)


def write(value: Decimal) -> str:
    """
    Return a value in plain digits, trailing zeros kept.

    Parameters
    ----------
    value : Decimal
        Finite.

    Returns
    -------
    str
        Without a power of ten; zero has no sign.

    Examples
    --------
    >>> write(Decimal("13.60")), write(Decimal("1.4E+2"))
    ('13.60', '140')
    """
    return f"{abs(value) if value.is_zero() else value:f}"


def write_power(value: Decimal) -> str:
    """
    Return a value as digits times a power of ten, so that its figures are plain.

    Parameters
    ----------
    value : Decimal
        Finite.

    Returns
    -------
    str
        One digit before the point.

    Examples
    --------
    >>> write_power(Decimal("1.4E+2"))
    '1.4 × 10^2'
    """
    power = value.adjusted()
    return f"{write(value.scaleb(-power, context=CARRIED))} × 10^{power}"
