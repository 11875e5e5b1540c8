"""
Values of a whole class on their way through a relation, each with where it can lie.

The arithmetic is that of `judge.carried`, a column at a time: bounds are worst-case,
and what is worked out may be rounded to its proper figures before it is used.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from workbook.graph.concordance import concordant_column

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.graph.compile import Column


@dataclass(frozen=True, slots=True, eq=False)
class Bounded:
    """Columns of shape (n_students,) or (), in base units."""

    low: Column
    high: Column
    #: The value itself, unrounded.
    value: Column
    #: Power of ten of the last figure that can be trusted; minus infinity if exact.
    place: Column
    #: True for what was worked out, and may be rounded before it is used.
    is_result: bool = False

    @classmethod
    def exactly(cls, number: float) -> Bounded:
        """
        Return a counted or defined number.

        Parameters
        ----------
        number : float
            The number [-].

        Returns
        -------
        Bounded
            It limits no figures.
        """
        value = np.asarray(number, dtype=float)
        return cls(value, value, value, np.asarray(-np.inf))

    @property
    def half(self) -> Column:
        """Half a unit in the last proper place, in base units; 0 if exact."""
        return np.asarray(0.5 * 10.0**self.place)

    @property
    def figures(self) -> Column:
        """Significant figures; infinite if exact."""
        return magnitude(self.value) - self.place + 1

    def widened(self, half: Column) -> Bounded:
        """
        Return the same values with bounds that lie further out.

        Parameters
        ----------
        half : array, (n_students,)
            By how much on each side, in base units [g, cm, mol, s, K, %].

        Returns
        -------
        Bounded
            No longer fresh: what was rounded once is not rounded again.
        """
        low, high = self.low - half, self.high + half
        return replace(self, low=low, high=high, is_result=False)

    def alone(self) -> Bounded:
        """
        Return the values without their bounds.

        Returns
        -------
        Bounded
            Good for as many figures as before.
        """
        return replace(self, low=self.value, high=self.value)

    def rounded(self) -> Bounded:
        """
        Return where the values can lie once they may have been rounded.

        Returns
        -------
        Bounded
            What was not worked out here, as it is.
        """
        return self.widened(self.half) if self.is_result else self

    def __neg__(self) -> Bounded:
        return replace(self, low=-self.high, high=-self.low, value=-self.value)

    def __add__(self, other: Bounded) -> Bounded:
        a, b = self.rounded(), other.rounded()
        place = np.maximum(a.place, b.place)
        return Bounded(
            a.low + b.low, a.high + b.high, a.value + b.value, place, is_result=True
        )

    def __sub__(self, other: Bounded) -> Bounded:
        return self + (-other.rounded())

    def __mul__(self, other: Bounded) -> Bounded:
        a, b = self.rounded(), other.rounded()
        ends = [one * two for one in (a.low, a.high) for two in (b.low, b.high)]
        return _by_figures(ends, a.value * b.value, a, b)

    def __truediv__(self, other: Bounded) -> Bounded:
        a, b = self.rounded(), other.rounded()
        ends = [one / two for one in (a.low, a.high) for two in (b.low, b.high)]
        nowhere = np.where((b.low <= 0) & (b.high >= 0), np.nan, 0.0)
        return _by_figures([end + nowhere for end in ends], a.value / b.value, a, b)

    def __pow__(self, exponent: int) -> Bounded:
        if exponent < 0:
            return Bounded.exactly(1.0) / self**-exponent
        base = self.rounded()
        ends = [base.low**exponent, base.high**exponent]
        return _by_figures(ends, base.value**exponent, base)


def magnitude(value: Column) -> Column:
    """
    Return the power of ten of the first digit.

    Parameters
    ----------
    value : array
        In any unit [-].

    Returns
    -------
    array
        Whole numbers [-]; minus infinity for 0.
    """
    return np.floor(np.log10(np.abs(value)))


def _by_figures(ends: list[Column], value: Column, *limits: Bounded) -> Bounded:
    figures = limits[0].figures
    for each in limits[1:]:
        figures = np.minimum(figures, each.figures)
    low, high = np.minimum.reduce(ends), np.maximum.reduce(ends)
    return Bounded(low, high, value, magnitude(value) - figures + 1, is_result=True)


def _least(*given: Bounded) -> Bounded:
    first, *rest = (each.rounded() for each in given)
    for other in rest:
        place = np.where(other.value < first.value, other.place, first.place)
        low, high, value = (
            np.minimum(getattr(first, side), getattr(other, side))
            for side in ("low", "high", "value")
        )
        first = Bounded(low, high, value, place)
    return replace(first, is_result=True)


def _greatest(*given: Bounded) -> Bounded:
    return -_least(*(-each for each in given))


def _logarithm(of: Bounded) -> Bounded:
    of = of.rounded()
    low, high, value = (np.log10(each) for each in (of.low, of.high, of.value))
    return Bounded(low, high, value, -of.figures, is_result=True)


def _power(of: Bounded) -> Bounded:
    of = of.rounded()
    low, high, value = (10.0**each for each in (of.low, of.high, of.value))
    figures = np.maximum(-of.place, 1)
    return Bounded(low, high, value, magnitude(value) - figures + 1, is_result=True)


def _root(of: Bounded) -> Bounded:
    of = of.rounded()
    return _by_figures([np.sqrt(of.low), np.sqrt(of.high)], np.sqrt(of.value), of)


def _concordant(within: Bounded, *values: Bounded) -> Bounded:
    """Average the runs that agree; their bounds move with the same choice."""
    limit, given = within.rounded(), [each.rounded() for each in values]
    runs = np.stack(np.broadcast_arrays(*(each.value for each in given)))
    mean = concordant_column(limit.value, *runs)
    # All runs are read off one burette: their ends choose as their middles do.
    ends = [
        concordant_column(limit.value, *(getattr(each, side) for each in given))
        for side in ("low", "high")
    ]
    place = np.maximum.reduce(np.broadcast_arrays(*(each.place for each in given)))
    return Bounded(ends[0], ends[1], mean, place, is_result=True)


#: The functions of the relation language.
FUNCTIONS: dict[str, Callable[..., Bounded]] = {
    "concordant": _concordant,
    "min": _least,
    "max": _greatest,
    "exp10": _power,
    "log10": _logarithm,
    "sqrt": _root,
}
