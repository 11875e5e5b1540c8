"""Formula text to parts, by descent; what is not certain is refused."""

from __future__ import annotations

import re
from itertools import takewhile
from typing import NoReturn

from workbook.errors import FormulaError
from workbook.matter.elements import ELEMENTS, suggest_symbol
from workbook.matter.part import Atom, Group, Item, Part, count_atoms

#: Brackets within brackets; more than any substance needs.
DEPTH_LIMIT = 8

#: Digits of one count.
DIGIT_LIMIT = 4

_BELOW = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
_CLOSING = {"(": ")", "[": "]"}
_SYMBOL = re.compile(r"[A-Z][a-z]*")
_COUNT = re.compile(r"[0-9]+|[₀-₉]+")
_MULTIPLIER = re.compile(r"(?P<digits>[0-9]+)\s*")
_DOT = re.compile(r"\s*(?P<dot>[·•∙⋅.*])\s*")
_STATE = re.compile(r"\((?:s|l|g|aq)\)")
_OXIDATION = re.compile(r"\((?:I{1,3}|IV|VI{0,3})\)")
_WATER = {"H": 2, "O": 1}


def read_parts(text: str) -> tuple[Part, ...]:
    """
    Return the parts of a formula that has no charge.

    Parameters
    ----------
    text : str
        Without space at its ends.

    Returns
    -------
    tuple of Part
        At least one.

    Raises
    ------
    FormulaError
        If the text can't be read for certain.

    Examples
    --------
    >>> read_parts("NaOH")
    (Part(count=1, items=(Atom(symbol='Na', count=1), Atom(symbol='O', count=1), \
Atom(symbol='H', count=1))),)
    """
    return _Reader(text).read_all()


class _Reader:
    """A text, and how far it has been read."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.position = 0

    def read_all(self) -> tuple[Part, ...]:
        if _MULTIPLIER.match(self.text):
            self._refuse(
                "it starts with a number. A coefficient belongs in the equation; two "
                "units that share a water are (CaSO4)2·H2O.",
            )
        parts = [Part(1, self._items(0))]
        while match := _DOT.match(self.text, self.position):
            parts.append(self._part(match))
        if self.position < len(self.text):
            self._refuse_stray()
        return tuple(parts)

    def _part(self, dot: re.Match[str]) -> Part:
        self.position = dot.end()
        match = _MULTIPLIER.match(self.text, self.position)
        if match is None:
            return Part(1, self._items(0))
        count = self._number(match["digits"])
        self.position = match.end()
        if self.text[self.position : self.position + 1] in {"", ".", ","}:
            self._refuse(
                "a formula must follow a dot and its number, as in CuSO4·5H2O. "
                "Counts are whole numbers.",
            )
        part = Part(count, self._items(0))
        if dot["dot"] == ".":
            self._refuse_decimal(dot, part)
        return part

    def _refuse_decimal(self, dot: re.Match[str], part: Part) -> None:
        """Refuse a point that may be a decimal point: Fe1.95O2 is no hydrate."""
        one_before = re.search(r"(?<![0-9])1\Z", self.text[: dot.start()])
        if one_before or count_atoms(part.items) != _WATER:
            self.position = dot.start("dot")
            self._refuse(
                "the point may be a decimal point or a dot. Counts are whole "
                "numbers; for a dot write '·', as in CuSO4·5H2O.",
            )

    def _items(self, depth: int) -> tuple[Item, ...]:
        items: list[Item] = []
        while self.position < len(self.text):
            if self.text[self.position] in _CLOSING:
                items.append(self._group(depth))
            elif match := _SYMBOL.match(self.text, self.position):
                items.append(self._atom(match))
            else:
                break
        if not items:
            self._refuse_stray()
        return tuple(items)

    def _atom(self, match: re.Match[str]) -> Atom:
        if match[0] not in ELEMENTS:
            self._refuse_symbol(match[0])
        self.position = match.end()
        return Atom(match[0], self._count())

    def _group(self, depth: int) -> Group:
        self._refuse_label()
        if depth == DEPTH_LIMIT:
            self._refuse(f"its brackets go deeper than {DEPTH_LIMIT}.")
        opened, bracket = self.position, self.text[self.position]
        self.position += 1
        items = self._items(depth + 1)
        if self.text[self.position : self.position + 1] != _CLOSING[bracket]:
            self.position = opened
            self._refuse(f"no {_CLOSING[bracket]!r} closes this {bracket!r}.")
        self.position += 1
        return Group(bracket, items, self._count())

    def _refuse_label(self) -> None:
        if match := _STATE.match(self.text, self.position):
            self._refuse(f"{match[0]!r} tells the state; leave it out.")
        if match := _OXIDATION.match(self.text, self.position):
            self._refuse(
                f"{match[0]!r} looks like an oxidation number; leave it out.",
            )

    def _count(self) -> int:
        match = _COUNT.match(self.text, self.position)
        if match is None:
            return 1
        count = self._number(match[0].translate(_BELOW))
        self.position = match.end()
        return count

    def _number(self, digits: str) -> int:
        if digits.startswith("0"):
            self._refuse("a count is a whole number, and starts with 1 to 9.")
        if len(digits) > DIGIT_LIMIT:
            self._refuse(f"a count has at most {DIGIT_LIMIT} digits.")
        return int(digits)

    def _refuse_symbol(self, symbol: str) -> NoReturn:
        before = self.text[self.position - 1 : self.position]
        joined = f"{before}{symbol[0].lower()}"
        if before.isupper() and joined in ELEMENTS:
            hint = f" Did you mean {joined!r}? Capitals count."
        else:
            hint = suggest_symbol(symbol)
        self._refuse(f"{symbol!r} is no element.{hint}")

    def _refuse_stray(self) -> NoReturn:
        """Refuse a character that can't stand where it does."""
        found = self.text[self.position : self.position + 1]
        reason = f"{found!r} can't stand here."
        if not found:
            reason = "it ends where an element is expected."
        elif found.isspace():
            reason = "a space stands inside it; take it out."
        elif found in "+-−–^⁺⁻":
            reason = "a charge comes last, as in SO4^2- or [Cu(NH3)4]2+."
        elif found.islower():
            letters = "".join(takewhile(str.islower, self.text[self.position :]))
            reason = (
                f"an element starts with a capital, not {found!r}."
                f"{suggest_symbol(letters)}"
            )
        self._refuse(reason)

    def _refuse(self, reason: str) -> NoReturn:
        raise FormulaError(self.text, self.position, reason)
