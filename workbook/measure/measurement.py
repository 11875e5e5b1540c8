"""A measurement as it was typed: value, figures, unit, spread."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from workbook.measure.figures import Known
from workbook.measure.rounding import write, write_power
from workbook.measure.units import Unit, convert, convert_difference


@dataclass(frozen=True, slots=True)
class Written:
    """
    A measurement as it was typed.

    Parameters
    ----------
    text : str
        As typed.
    value : Decimal
        In *unit*, written trailing zeros kept.
    figures, least_figures : int
        Significant figures with, and without, the trailing zeros of a whole number:
        ``1360`` may have 4 or 3.
    place : int
        Power of ten of the last written digit.
    unit : Unit or None
        None if none was typed.
    spread : Decimal or None
        What stands behind ±, in *unit*.
    rest : str
        Words behind the unit, which were left aside.
    """

    text: str
    value: Decimal
    figures: int
    least_figures: int
    place: int
    unit: Unit | None
    spread: Decimal | None
    rest: str

    @property
    def least_place(self) -> int:
        """Power of ten of the last digit if no trailing zero of ``1360`` counts."""
        return self.place + self.figures - self.least_figures

    def in_unit(self, unit: Unit) -> Decimal:
        """
        Return the value in a unit; one that was typed without a unit is taken to be.

        Parameters
        ----------
        unit : Unit
            The unit that is wanted.

        Returns
        -------
        Decimal
            In *unit*, unrounded.

        Raises
        ------
        DimensionError
            If the typed unit measures something else.

        Examples
        --------
        >>> from workbook.measure.units import read_unit
        >>> from workbook.measure.written import Comma, read_written
        >>> read_written("25.8 mmol", comma=Comma.ASK).in_unit(read_unit("mol"))
        Decimal('0.0258')
        """
        return self.value if self.unit is None else convert(self.value, self.unit, unit)

    def half_unit(self, unit: Unit) -> Decimal:
        """
        Return half a unit in the last written place: as far as rounding can have moved.

        Parameters
        ----------
        unit : Unit
            The unit that is wanted.

        Returns
        -------
        Decimal
            A half-width, in *unit*.

        Raises
        ------
        DimensionError
            If the typed unit measures something else.

        Examples
        --------
        >>> from workbook.measure.units import read_unit
        >>> from workbook.measure.written import Comma, read_written
        >>> read_written("13.60 g", comma=Comma.ASK).half_unit(read_unit("mg"))
        Decimal('5')
        """
        return self._convert_width(Decimal((0, (5,), self.place - 1)), unit)

    def known(self, unit: Unit) -> Known:
        """
        Return the value in a unit, and how far it is known there.

        Parameters
        ----------
        unit : Unit
            The unit that is wanted.

        Returns
        -------
        Known
            Known to the coarsest place that loses nothing of what was typed.

        Raises
        ------
        DimensionError
            If the typed unit measures something else.

        References
        ----------
        A. Thompson, B. N. Taylor, NIST Special Publication 811 (2008), B.7.2: a
        converted value is rounded to the figures that keep its relative error.
        """
        whole_unit = self._convert_width(Decimal((0, (1,), self.place)), unit)
        return Known(self.in_unit(unit), whole_unit.adjusted())

    def say(self) -> str:
        """
        Return how the text was read, for its writer to check.

        Returns
        -------
        str
            Value, unit and figures.

        Examples
        --------
        >>> from workbook.measure.written import Comma, read_written
        >>> read_written("13.6g", comma=Comma.ASK).say()
        '13.6 g, 3 figures'
        >>> read_written("1360 g", comma=Comma.ASK).say()
        '1360 g, 3 or 4 figures'
        """
        number = say_number(self.value)
        if self.spread is not None:
            number += f" ± {say_number(self.spread)}"
        unit = "" if self.unit is None else f" {self.unit.symbol}"
        rest = f"; {self.rest!r} was left aside" if self.rest else ""
        return f"{number}{unit}, {_say_figures(self.least_figures, self.figures)}{rest}"

    def _convert_width(self, width: Decimal, unit: Unit) -> Decimal:
        if self.unit is None:
            return width
        return convert_difference(width, self.unit, unit)


#: Powers of ten between which a number is said in plain digits.
_PLAIN_POWERS = range(-4, 7)


def say_number(value: Decimal) -> str:
    """
    Return a number in plain digits, or times a power of ten where those get long.

    Parameters
    ----------
    value : Decimal
        Finite.

    Returns
    -------
    str
        All its digits.

    Examples
    --------
    >>> say_number(Decimal("0.0258")), say_number(Decimal("6.02E+23"))
    ('0.0258', '6.02 × 10^23')
    """
    return (write if value.adjusted() in _PLAIN_POWERS else write_power)(value)


def _say_figures(least: int, most: int) -> str:
    if least == most:
        return f"{most} figure" + ("s" if most > 1 else "")
    joint = "or" if most == least + 1 else "to"
    return f"{least} {joint} {most} figures"
