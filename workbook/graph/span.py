"""
Interval arithmetic: where a value can lie when what it rests on is not settled.

A band of honest answers is a span: each input brings the span in which an honest
student can stand, and the relation carries them through. Bounds are worst-case,
so nobody who stays inside the spans of the inputs falls outside that of the result.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from fractions import Fraction

#: Floats that differ by less than this share are the same to a judge [-].
ROUND_OFF = 1e-9


@dataclass(frozen=True, slots=True)
class Span:
    """
    All values from low to high, both included.

    Parameters
    ----------
    low, high : float
        In base units [g, cm, mol, s, K, %]; NaN where there is no value.
    """

    low: float
    high: float

    @classmethod
    def around(cls, value: float, half: float = 0.0) -> Span:
        """
        Return the span of a value with its half-width.

        Parameters
        ----------
        value : float
            The middle, in base units [g, cm, mol, s, K, %].
        half : float
            Half the width, in base units [g, cm, mol, s, K, %].

        Returns
        -------
        Span
            From value - half to value + half.

        Examples
        --------
        >>> Span.around(2.0, 0.5)
        Span(low=1.5, high=2.5)
        """
        return cls(value - half, value + half)

    @classmethod
    def exactly(cls, number: Fraction) -> Span:
        """
        Return the span of an exact number, which is a point.

        Parameters
        ----------
        number : Fraction
            A coefficient, or a number of a relation [-].

        Returns
        -------
        Span
            From the number to itself.
        """
        return cls.around(float(number))

    def holds(self, value: float) -> bool:
        """
        Tell whether a value lies in the span, its ends included.

        Parameters
        ----------
        value : float
            In base units [g, cm, mol, s, K, %].

        Returns
        -------
        bool
            False for a span without a value.
        """
        slack = ROUND_OFF * max(abs(self.low), abs(self.high))
        return self.low - slack <= value <= self.high + slack

    def widened(self, half: float) -> Span:
        """
        Return a span that reaches further on both sides.

        Parameters
        ----------
        half : float
            By how much, in base units [g, cm, mol, s, K, %].

        Returns
        -------
        Span
            From low - half to high + half.
        """
        return Span(self.low - half, self.high + half)

    def meets(self, other: Span) -> bool:
        """
        Tell whether two spans have a value in common.

        Parameters
        ----------
        other : Span
            In the same units.

        Returns
        -------
        bool
            True also where they only touch.
        """
        return self.holds(other.low) or self.holds(other.high) or other.holds(self.low)

    def __add__(self, other: Span) -> Span:
        return Span(self.low + other.low, self.high + other.high)

    def __sub__(self, other: Span) -> Span:
        return Span(self.low - other.high, self.high - other.low)

    def __neg__(self) -> Span:
        return Span(-self.high, -self.low)

    def __mul__(self, other: Span) -> Span:
        return _hull(*(a * b for a in self._ends for b in other._ends))

    def __truediv__(self, other: Span) -> Span:
        if other.low <= 0 <= other.high:
            return _NOWHERE
        return _hull(*(a / b for a in self._ends for b in other._ends))

    def __pow__(self, exponent: int) -> Span:
        if exponent < 0:
            return Span(1.0, 1.0) / self**-exponent
        ends = [end**exponent for end in self._ends]
        return _hull(*ends, *([0.0] if self.holds(0.0) and exponent else []))

    @property
    def _ends(self) -> tuple[float, float]:
        return self.low, self.high


#: The span of what has no value.
_NOWHERE = Span(math.nan, math.nan)


def _has_value(span: Span) -> bool:
    return not (math.isnan(span.low) or math.isnan(span.high))


def _hull(*values: float) -> Span:
    if any(math.isnan(value) for value in values):
        return _NOWHERE
    return Span(min(values), max(values))


def lowest(*spans: Span) -> Span:
    """
    Return the span of the smallest of several values.

    Parameters
    ----------
    *spans : Span
        At least one.

    Returns
    -------
    Span
        From the least low to the least high; NaN where one has no value.
    """
    if not all(map(_has_value, spans)):
        return _NOWHERE
    return Span(min(s.low for s in spans), min(s.high for s in spans))


def highest(*spans: Span) -> Span:
    """
    Return the span of the largest of several values.

    Parameters
    ----------
    *spans : Span
        At least one.

    Returns
    -------
    Span
        From the greatest low to the greatest high; NaN where one has no value.
    """
    if not all(map(_has_value, spans)):
        return _NOWHERE
    return Span(max(s.low for s in spans), max(s.high for s in spans))


def exp10(power: float) -> float:
    """
    Return a power of ten.

    Parameters
    ----------
    power : float
        The exponent [-].

    Returns
    -------
    float
        Ten to that power [-].
    """
    return math.pow(10.0, power)


def mapped(function: Callable[[float], float], span: Span) -> Span:
    """
    Return the span of a rising function's values.

    Parameters
    ----------
    function : callable
        Rising, such as a root or a logarithm.
    span : Span
        Of the argument.

    Returns
    -------
    Span
        NaN where the function has no value.
    """
    try:
        return Span(function(span.low), function(span.high))
    except (OverflowError, ValueError):
        return _NOWHERE
