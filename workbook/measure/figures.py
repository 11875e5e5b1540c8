"""Arithmetic that knows how far each value is known: the usual rules for figures."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from workbook.measure.rounding import CARRIED, Ties, round_place


@dataclass(frozen=True, slots=True)
class Known:
    """
    A value, and the place of the last digit that can be trusted.

    Sums are known to the coarsest place, products to the fewest figures,
    logarithms to as many decimals as their argument has figures. The value itself
    is never rounded on the way: it keeps every digit until `round`. Where no
    result exists, as after a division by zero, Python's own `ArithmeticError`
    comes out.

    Parameters
    ----------
    value : Decimal
        Unrounded.
    place : int or None
        Power of ten of the last significant digit: -2 for hundredths. None for an
        exact number, such as a count or a coefficient, which limits nothing.

    Examples
    --------
    >>> mass = Known(Decimal("69.658"), -3)
    >>> volume = Known(Decimal("22.4"), -1) - Known(Decimal("13.5"), -1)
    >>> (mass / volume).figures, (mass / volume).round(Ties.EVEN)
    (2, Decimal('7.8'))
    """

    value: Decimal
    place: int | None

    @property
    def figures(self) -> int | None:
        """Significant figures, 0 if not even the first is sure; None if exact."""
        return None if self.place is None else max(_magnitude(self) - self.place + 1, 0)

    def round(self, ties: Ties) -> Decimal:
        """
        Return the value rounded to the figures that it has.

        Parameters
        ----------
        ties : Ties
            The rule for a digit exactly half way.

        Returns
        -------
        Decimal
            An exact value as it is.
        """
        if self.place is None:
            return self.value
        return round_place(self.value, self.place, ties)

    def __neg__(self) -> Known:
        return Known(self.value.copy_negate(), self.place)

    def __lt__(self, other: Known) -> bool:
        return self.value < other.value

    def __add__(self, other: Known) -> Known:
        return Known(CARRIED.add(self.value, other.value), self._coarser(other))

    def __sub__(self, other: Known) -> Known:
        return Known(CARRIED.subtract(self.value, other.value), self._coarser(other))

    def __mul__(self, other: Known) -> Known:
        value = CARRIED.multiply(self.value, other.value)
        return _by_figures(value, _magnitude(self) + _magnitude(other), self, other)

    def __truediv__(self, other: Known) -> Known:
        value = CARRIED.divide(self.value, other.value)
        return _by_figures(value, _magnitude(self) - _magnitude(other), self, other)

    def __pow__(self, power: int) -> Known:
        value = CARRIED.power(self.value, Decimal(power))
        return _by_figures(value, power * _magnitude(self), self)

    def sqrt(self) -> Known:
        """
        Return the square root, known to as many figures as the value.

        Returns
        -------
        Known
            Unrounded.
        """
        return _by_figures(CARRIED.sqrt(self.value), _magnitude(self) // 2, self)

    def log10(self) -> Known:
        """
        Return the decimal logarithm, with as many decimals as the value has figures.

        Returns
        -------
        Known
            Unrounded; of an exact value, exact.

        Examples
        --------
        >>> (-Known(Decimal("0.0333"), -4).log10()).round(Ties.EVEN)
        Decimal('1.478')
        """
        place = None if self.figures is None else -self.figures
        return Known(CARRIED.log10(self.value), place)

    def exp10(self) -> Known:
        """
        Return ten to the power of the value, with as many figures as it has decimals.

        Returns
        -------
        Known
            Unrounded, and good to one figure at least; of an exact value, exact.

        Examples
        --------
        >>> Known(Decimal("-1.48"), -2).exp10().round(Ties.EVEN)
        Decimal('0.033')
        """
        value = CARRIED.power(Decimal(10), self.value)
        if self.place is None:
            return Known(value, None)
        return Known(value, value.adjusted() - max(-self.place, 1) + 1)

    def _coarser(self, other: Known) -> int | None:
        places = [each for each in (self.place, other.place) if each is not None]
        return max(places, default=None)


def _magnitude(known: Known) -> int:
    """Return the power of ten of the first digit; of a zero, its place."""
    return known.value.adjusted() if known.value else known.place or 0


def _by_figures(value: Decimal, zero_magnitude: int, *limits: Known) -> Known:
    """Return a value that is known to as many figures as the least known limit."""
    figures = [_magnitude(e) - e.place + 1 for e in limits if e.place is not None]
    if not figures:
        return Known(value, None)
    magnitude = value.adjusted() if value else zero_magnitude
    return Known(value, magnitude - min(figures) + 1)
