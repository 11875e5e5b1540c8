"""The table of units and their spellings, read from ``units.csv`` beside it."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from fractions import Fraction
from importlib import resources

#: Spellings that two people would read differently.
ASKED = {
    "MG": ("mg", "megagrams"),
    "ML": ("mL", "megalitres"),
    "MM": ("mM", "mm"),
    "MMOL": ("mmol", "megamoles"),
    "Mg": ("mg", "megagrams"),
    "Ml": ("mL", "megalitres"),
    "Mmol": ("mmol", "megamoles"),
}


@dataclass(frozen=True, slots=True)
class Row:
    """A unit of the table: *factor* times *base*, counted from *offset*."""

    symbol: str
    factor: Fraction
    #: Base unit and power, in the order of the table.
    base: tuple[tuple[str, int], ...]
    offset: Fraction


_POWER = re.compile(r"(?P<name>[A-Za-z%]+)(?P<power>-?\d+)?")


def _load() -> tuple[dict[str, Row], dict[str, str], dict[str, str]]:
    """Return the rows by symbol, and the symbol of every symbol and word."""
    text = resources.files(__package__).joinpath("units.csv").read_text("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    rows: dict[str, Row] = {}
    symbols: dict[str, str] = {}
    words: dict[str, str] = {}
    for line in csv.DictReader(lines):
        row = _read_row(line)
        rows[row.symbol] = row
        symbols.update(dict.fromkeys(line["symbols"].split("|"), row.symbol))
        words.update(dict.fromkeys(line["words"].casefold().split("|"), row.symbol))
    return rows, symbols, words


def _read_row(line: dict[str, str]) -> Row:
    base = tuple(
        (m["name"], int(m["power"] or 1)) for m in _POWER.finditer(line["base"])
    )
    return Row(line["symbol"], Fraction(line["factor"]), base, Fraction(line["offset"]))


#: Every row by its symbol; and the symbol that each spelling stands for.
ROWS, SYMBOLS, WORDS = _load()


def _without_spaces(spelling: str) -> str:
    return "".join(spelling.split())


_BY_SYMBOL = {_without_spaces(each): symbol for each, symbol in SYMBOLS.items()}
_BY_WORD = {_without_spaces(each): symbol for each, symbol in WORDS.items()}


def find_symbol(spelling: str) -> str | None:
    """
    Return the symbol of the unit that is spelled so, or None.

    Parameters
    ----------
    spelling : str
        A symbol as it stands, or a word in any capitals; spaces don't count.

    Returns
    -------
    str or None
        A key of `ROWS`.

    Examples
    --------
    >>> find_symbol("GRAMS"), find_symbol("mm Hg"), find_symbol("KG")
    ('g', 'mmHg', None)
    """
    short = _without_spaces(spelling)
    return _BY_SYMBOL.get(short) or _BY_WORD.get(short.casefold())
