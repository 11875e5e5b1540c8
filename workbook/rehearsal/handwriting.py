"""How a number with its unit is typed: every way that students do and that is clear."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from workbook.errors import TextError, UnitError
from workbook.measure.table import SYMBOLS, WORDS
from workbook.measure.units import ONE, Unit, read_unit
from workbook.measure.written import Comma

if TYPE_CHECKING:
    import random
    from collections.abc import Callable
    from decimal import Decimal

#: Prefixes that are typed beside a unit: up to a thousand times as large or small [-].
_FAR = 3

#: A space that keeps number and unit on a line, and narrow ones of good printing.
_SPACES = ("", " ", " ", "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}")

_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")

#: A whole number of so many digits is written with a space for the thousands [-].
_GROUPED = 5

#: The share of students who write a decimal comma [-].
_COMMAS = 0.3

#: A comma before so many digits could stand for thousands [-].
_THOUSANDS = 3


def write_down(value: Decimal, unit: Unit, comma: Comma, chance: random.Random) -> str:
    """
    Return a value as a student types it.

    Parameters
    ----------
    value : Decimal
        In *unit*; every digit of it is typed.
    unit : Unit
        The unit that is asked; the student may type another.
    comma : Comma
        What a comma means in the course.
    chance : random.Random
        Decides between all the ways.

    Returns
    -------
    str
        Number and unit.
    """
    symbol, power = chance.choice(spellings(unit))
    scaled = value.scaleb(power)
    number = chance.choice(_WAYS)(scaled)
    if comma is not Comma.THOUSANDS and chance.random() < _COMMAS:
        number = _with_comma(number, comma)
    return f"{number}{chance.choice(_SPACES)}{symbol}".strip()


@cache
def spellings(unit: Unit) -> tuple[tuple[str, int], ...]:
    """
    Return the ways to type a unit.

    Parameters
    ----------
    unit : Unit
        As it is asked.

    Returns
    -------
    tuple of (str, int)
        What is typed, and the power of ten that takes a value there: ``("mg", 3)``
        for g.
    """
    if unit == ONE:
        return (("", 0),)
    (symbol, power), *others = unit.parts
    if power != 1 or unit.offset:
        return ((unit.symbol, 0),)
    found: dict[str, int] = {}
    for spelling in (*SYMBOLS, *WORDS) if not others else SYMBOLS:
        shift = _shift(spelling, symbol)
        if shift is not None:
            found |= dict.fromkeys(_compounds(spelling, tuple(others)), shift)
    return tuple(found.items())


def _shift(spelling: str, symbol: str) -> int | None:
    """Return the power of ten between two spellings; None if there is none near."""
    try:
        unit, wanted = read_unit(spelling), read_unit(symbol)
    except (TextError, UnitError):
        return None
    if unit.dimension != wanted.dimension or unit.offset:
        return None
    ratio = wanted.factor / unit.factor
    near = range(-_FAR, _FAR + 1)
    return next((each for each in near if ratio == Fraction(10) ** each), None)


def _compounds(spelling: str, others: tuple[tuple[str, int], ...]) -> list[str]:
    if not others:
        return [spelling]
    if len(others) > 1 or others[0][1] != -1:
        return []
    below = others[0][0]
    return [f"{spelling}/{below}", f"{spelling} {below}-1", f"{spelling}·{below}⁻¹"]


def _plain(value: Decimal) -> str:
    return f"{value:f}"


def _grouped(value: Decimal) -> str:
    whole, point, decimals = f"{value:f}".partition(".")
    if len(whole) < _GROUPED:
        return whole + point + decimals
    return f"{int(whole):,}".replace(",", " ") + point + decimals


def _powers(form: str) -> Callable[[Decimal], str]:
    def write(value: Decimal) -> str:
        power = value.adjusted()
        raised = str(power).translate(_SUPERSCRIPTS)
        return form.format(f"{value.scaleb(-power):f}", power, raised)

    return write


_WAYS: tuple[Callable[[Decimal], str], ...] = (
    _plain,
    _plain,
    _plain,
    _grouped,
    _powers("{0}e{1}"),
    _powers("{0}E{1:+03d}"),
    _powers("{0} × 10^{1}"),
    _powers("{0} x 10^{1}"),
    _powers("{0}·10{2}"),
    _powers("{0}*10**{1}"),
)


def _with_comma(number: str, comma: Comma) -> str:
    """Write a decimal comma, unless it could be taken for a thousands mark."""
    whole, point, rest = number.partition(".")
    digits = len(rest) - len(rest.lstrip("0123456789"))
    if not point or (comma is Comma.ASK and digits == _THOUSANDS):
        return number
    return f"{whole},{rest}"
