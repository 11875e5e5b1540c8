"""Atomic weights, read from ``elements.csv`` beside this module."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import TYPE_CHECKING

from workbook.errors import MatterError, nearest
from workbook.measure.rounding import Ties, round_place

if TYPE_CHECKING:
    from collections.abc import Mapping

#: The tables that a course can choose.
TABLES = ("2021 abridged", "two decimals")

#: Power of ten of the last digit in the table "two decimals".
_TWO_DECIMALS = -2


@dataclass(frozen=True, slots=True)
class AtomicWeights:
    """A table of atomic weights: its name, and the weight of each symbol [g/mol]."""

    name: str
    weights: Mapping[str, Decimal]

    def weight(self, symbol: str) -> Decimal:
        """
        Return the atomic weight of an element.

        Parameters
        ----------
        symbol : str
            As ``"Na"``; capitals count.

        Returns
        -------
        Decimal
            The mass of a mole of atoms [g/mol].

        Raises
        ------
        MatterError
            If no element has that symbol, or if the element has no standard
            atomic weight.

        Examples
        --------
        >>> load_weights("2021 abridged").weight("Na")
        Decimal('22.990')
        """
        if symbol in self.weights:
            return self.weights[symbol]
        if symbol in ELEMENTS:
            msg = (
                f"{symbol!r}, {ELEMENTS[symbol]}, has no standard atomic weight: no "
                "isotope of it lasts long enough. A molar mass can't be worked out."
            )
            raise MatterError(msg)
        msg = f"{symbol!r} is no element.{suggest_symbol(symbol)}"
        raise MatterError(msg)


def suggest_symbol(written: str) -> str:
    """
    Return a sentence that offers the symbols closest to what was written.

    Parameters
    ----------
    written : str
        Letters that are no symbol.

    Returns
    -------
    str
        Led by a space, or the empty text when no symbol has that first letter.

    Examples
    --------
    >>> suggest_symbol("co")
    " Did you mean 'C' or 'Co'?"
    >>> suggest_symbol("Kx")
    ' Symbols with K are K, Kr.'
    """
    first, both = written[:1].upper(), written[:2].capitalize()
    likely = [symbol for symbol in (first, both) if symbol in ELEMENTS]
    if both in likely:
        offered = " or ".join(map(repr, dict.fromkeys(likely)))
        return f" Did you mean {offered}?"
    alike = sorted(symbol for symbol in ELEMENTS if symbol[0] == first)
    return f" Symbols with {first} are {', '.join(alike)}." if alike else ""


@cache
def load_weights(name: str) -> AtomicWeights:
    """
    Return a table of atomic weights.

    Parameters
    ----------
    name : str
        One of `TABLES`.

    Returns
    -------
    AtomicWeights
        With a weight [g/mol] for every element that has a standard one.

    Raises
    ------
    MatterError
        If no table has that name.

    Notes
    -----
    "two decimals" is the first table rounded to hundredths, ties away from zero:
    Mg 24.31, Si 28.09, Fe 55.85. Lead, known to tenths only, stays 207.2.

    Examples
    --------
    >>> load_weights("two decimals").weight("H")
    Decimal('1.01')

    References
    ----------
    .. [1] T. Prohaska et al., "Standard atomic weights of the elements 2021 (IUPAC
       Technical Report)", Pure and Applied Chemistry 94 (2022) 573,
       doi:10.1515/pac-2019-0603, Table 1.
    """
    if name not in TABLES:
        msg = (
            f"{name!r} is no table of atomic weights; there are "
            f"{', '.join(map(repr, TABLES))}.{nearest(name, TABLES)}"
        )
        raise MatterError(msg)
    weights = dict(_ABRIDGED)
    if name == "two decimals":
        weights = {symbol: _shorten(weight) for symbol, weight in weights.items()}
    return AtomicWeights(name, MappingProxyType(weights))


def _shorten(weight: Decimal) -> Decimal:
    if int(weight.as_tuple().exponent) >= _TWO_DECIMALS:
        return weight
    return round_place(weight, _TWO_DECIMALS, Ties.UP)


def _read_table() -> tuple[dict[str, str], dict[str, Decimal]]:
    """Return the name of each symbol, and the weight where there is one [g/mol]."""
    text = resources.files(__package__).joinpath("elements.csv").read_text("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    rows = list(csv.DictReader(lines))
    names = {row["symbol"]: row["name"] for row in rows}
    weights = {row["symbol"]: Decimal(row["weight"]) for row in rows if row["weight"]}
    return names, weights


_names, _ABRIDGED = _read_table()

#: The name of every element, by its symbol.
ELEMENTS: Mapping[str, str] = MappingProxyType(_names)
