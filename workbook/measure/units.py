"""Strict units: what they measure, how big they are, and how they are read."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from math import prod

from workbook.errors import DimensionError
from workbook.measure.compound import Powers, read_compound, scan_compound
from workbook.measure.dimension import (
    AMOUNT,
    LENGTH,
    MASS,
    NUMBER,
    PERCENTAGE,
    TEMPERATURE,
    TIME,
    Dimension,
)
from workbook.measure.plain import to_plain
from workbook.measure.rounding import CARRIED
from workbook.measure.table import ROWS

__all__ = ["ONE", "PERCENT", "Dimension", "Unit", "convert", "read_unit", "scan_unit"]

_SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")

_BASES = {
    "g": MASS,
    "cm": LENGTH,
    "mol": AMOUNT,
    "s": TIME,
    "K": TEMPERATURE,
    "%": PERCENTAGE,
}


@dataclass(frozen=True, slots=True)
class Unit:
    """
    A unit: a product of powers of named units.

    Parameters
    ----------
    parts : tuple of (str, int)
        Symbols and powers, in the order of writing; no symbol twice, no power 0.
    dimension : Dimension
        What it measures.
    factor : Fraction
        Its size in g, cm, mol, s, K and %.
    offset : Fraction
        Where its zero lies, in the same base units; 0 for all but ``°C``.
    """

    parts: tuple[tuple[str, int], ...]
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)

    def __mul__(self, other: Unit) -> Unit:
        powers = dict(self.parts)
        for symbol, power in other.parts:
            powers[symbol] = powers.get(symbol, 0) + power
        return Unit(
            tuple((symbol, power) for symbol, power in powers.items() if power),
            self.dimension * other.dimension,
            self.factor * other.factor,
        )

    def __truediv__(self, other: Unit) -> Unit:
        return self * other**-1

    def __pow__(self, power: int) -> Unit:
        if power == 1:
            return self
        return Unit(
            tuple((symbol, each * power) for symbol, each in self.parts if power),
            self.dimension**power,
            self.factor**power,
        )

    @property
    def symbol(self) -> str:
        """
        The unit as it is printed, and read back by `read_unit`.

        Examples
        --------
        >>> read_unit("J mol-1 K-1").symbol, read_unit("g/cm3").symbol, ONE.symbol
        ('J/(mol·K)', 'g/cm³', '1')
        """
        top = [_written(symbol, power) for symbol, power in self.parts if power > 0]
        low = [_written(symbol, -power) for symbol, power in self.parts if power < 0]
        below = f"({'·'.join(low)})" if len(low) > 1 else "".join(low)
        return ("·".join(top) or "1") + (f"/{below}" if low else "")

    def put_behind(self, number: str) -> str:
        """
        Return a number as it is printed with this unit.

        Parameters
        ----------
        number : str
            As it is written.

        Returns
        -------
        str
            A pure number has nothing behind it.

        Examples
        --------
        >>> read_unit("g/cm3").put_behind("0.91"), ONE.put_behind("4.20")
        ('0.91 g/cm³', '4.20')
        """
        return number if self == ONE else f"{number} {self.symbol}"


def _written(symbol: str, power: int) -> str:
    return symbol if power == 1 else symbol + str(power).translate(_SUPERSCRIPTS)


#: The unit of a plain number.
ONE = Unit((), NUMBER, Fraction(1))


@cache
def _named(symbol: str) -> Unit:
    row = ROWS[symbol]
    dimension = prod((_BASES[name] ** power for name, power in row.base), start=NUMBER)
    return Unit(((symbol, 1),), dimension, row.factor, row.offset)


#: A hundredth, which is never mistaken for a plain number.
PERCENT = _named("%")


def read_unit(text: str) -> Unit:
    """
    Return the unit that a text names.

    Parameters
    ----------
    text : str
        A unit and nothing else, in any accepted spelling; ``1`` for a plain number.

    Returns
    -------
    Unit
        Its symbol may be spelled otherwise than the text.

    Raises
    ------
    UnknownUnitError
        If it names no unit of the table; the nearest name is offered.
    AmbiguousError
        If it can be read in two ways, such as ``ML``.
    UnreadError
        If it is longer than a unit can be.

    Examples
    --------
    >>> read_unit("grams per mole") == read_unit("g·mol⁻¹")
    True
    """
    plain = to_plain(text).text.strip()
    return ONE if plain == "1" else _multiply(read_compound(plain))


def scan_unit(text: str, start: int) -> tuple[Unit, int]:
    """
    Return the unit that stands at a place, and where it ends.

    Parameters
    ----------
    text : str
        Plain text, of `to_plain`.
    start : int
        Index of the unit's first character.

    Returns
    -------
    unit : Unit
        The longest that can be read there.
    end : int
        Index behind it; other words may follow.

    Raises
    ------
    UnknownUnitError
        If no unit stands there.
    AmbiguousError
        If it can be read in two ways.
    """
    powers, end = scan_compound(text, start)
    return _multiply(powers), end


def _multiply(powers: Powers) -> Unit:
    if len(powers) == 1:
        symbol, power = powers[0]
        return _named(symbol) ** power
    return prod((_named(symbol) ** power for symbol, power in powers), start=ONE)


def check_dimension(unit: Unit, wanted: Unit) -> None:
    """
    Refuse a unit that measures something else than the wanted one.

    Parameters
    ----------
    unit, wanted : Unit
        What was found, and a unit of the right dimension.

    Raises
    ------
    DimensionError
        Naming both units and what they measure.
    """
    if unit.dimension != wanted.dimension:
        raise DimensionError(
            unit.symbol, unit.dimension.words, wanted.symbol, wanted.dimension.words
        )


def convert(value: Decimal, unit: Unit, to: Unit) -> Decimal:
    """
    Return a value in another unit.

    Parameters
    ----------
    value : Decimal
        In *unit*.
    unit, to : Unit
        The unit that it has, and the unit that is wanted.

    Returns
    -------
    Decimal
        In *to*, unrounded; written digits stay where only the point moves.

    Raises
    ------
    DimensionError
        If the two measure different things.

    Examples
    --------
    >>> convert(Decimal("13.60"), read_unit("g"), read_unit("kg"))
    Decimal('0.01360')
    >>> convert(Decimal("25.0"), read_unit("°C"), read_unit("K"))
    Decimal('298.15')
    """
    scaled = convert_difference(value, unit, to)
    shift = (unit.offset - to.offset) / to.factor
    return scaled if shift == 0 else CARRIED.add(scaled, _scale(Decimal(1), shift))


def convert_difference(value: Decimal, unit: Unit, to: Unit) -> Decimal:
    """
    Return a difference of two values in another unit: a zero stays a zero.

    Parameters
    ----------
    value : Decimal
        A difference or a half-width, in *unit*.
    unit, to : Unit
        The unit that it has, and the unit that is wanted.

    Returns
    -------
    Decimal
        In *to*, unrounded.

    Raises
    ------
    DimensionError
        If the two measure different things.

    Examples
    --------
    >>> convert_difference(Decimal("0.5"), read_unit("°C"), read_unit("K"))
    Decimal('0.5')
    """
    check_dimension(unit, to)
    return _scale(value, unit.factor / to.factor)


def _scale(value: Decimal, ratio: Fraction) -> Decimal:
    shift = len(str(ratio.numerator)) - len(str(ratio.denominator))
    if ratio == Fraction(10) ** shift:
        return value.scaleb(shift, context=CARRIED)
    scaled = CARRIED.multiply(value, Decimal(ratio.numerator))
    return CARRIED.divide(scaled, Decimal(ratio.denominator))
