"""
The grammar of compound units: ``g/mol``, ``g mol-1``, ``g per mol``, ``J/(mol K)``.

::

    unit    = product [("/" | "per") power]
    product = power {("·" | "*" | "." | space) power}
    power   = (name | "(" product ")") ["^"] [integer]

One line of division, because ``J/mol K`` is read in two ways (SI Brochure,
9th edition, section 5.2): a second factor below it needs brackets.
"""

from __future__ import annotations

import re
from typing import TypeAlias

from workbook.errors import AmbiguousError, UnknownUnitError, nearest
from workbook.measure.table import ASKED, SYMBOLS, WORDS, find_symbol

#: Symbols of the table with their powers, in the order of writing.
Powers: TypeAlias = tuple[tuple[str, int], ...]


def _any_of(spellings: list[str]) -> str:
    longest_first = sorted(spellings, key=lambda each: (-len(each), each))
    return "|".join(re.escape(each).replace(r"\ ", r"\s*") for each in longest_first)


_NAME = re.compile(
    rf"(?P<asked>{_any_of([*ASKED])})(?![^\W\d_]|°)"
    rf"|(?P<name>{_any_of([*SYMBOLS])}|(?i:{_any_of([*WORDS])}))(?![^\W\d_]|°)"
)
_POWER = re.compile(
    r"\s*(?:\^|\*\*)\s*(?P<open>\()?\s*(?P<raised>[+-]?\d)\s*(?(open)\))(?![\w.,])"
    r"|(?P<plain>-?[1-4])(?![\w.,]\d|\w)"
)
_OVER = re.compile(r"\s*/\s*|\s+per\s+", re.IGNORECASE)
_TIMES = re.compile(r"\s*[·*]\s*(?![\d\s*])|\.(?=[^\W\d_])")
_WORD = re.compile(r"[^\s/·*()]+")

#: After a space these stand for carbon and potassium: "3.2 g K" has no kelvin in it.
_ELEMENTS = frozenset({"C", "K"})


def read_compound(text: str) -> Powers:
    """
    Return the factors of a text that is a unit and nothing else.

    Parameters
    ----------
    text : str
        Plain text, without spaces around it.

    Returns
    -------
    tuple of (str, int)
        Symbols of the table, with powers.

    Raises
    ------
    UnknownUnitError
        If a name in it is no unit, or something is left over.
    AmbiguousError
        If it can be read in two ways.
    """
    reader = _Reader(text, spaced_elements=True)
    inverse = re.match(r"1\s*/\s*", text)
    if inverse:
        powers, end = reader.power(inverse.end())
        powers = _raise(powers, -1)
    else:
        powers, end = reader.unit(0)
    if end < len(text):
        raise _unknown(text)
    return powers


def scan_compound(text: str, start: int) -> tuple[Powers, int]:
    """
    Return the unit that stands at a place, and where it ends.

    Parameters
    ----------
    text : str
        Plain text.
    start : int
        Index of the unit's first character.

    Returns
    -------
    powers : tuple of (str, int)
        Symbols of the table, with powers.
    end : int
        Index behind the unit; other words may follow.

    Raises
    ------
    UnknownUnitError
        If no unit stands there, or a division has none below it.
    AmbiguousError
        If it can be read in two ways.
    """
    return _Reader(text, spaced_elements=False).unit(start)


class _Reader:
    """Reads one text; each method takes an index and returns powers and an index."""

    def __init__(self, text: str, *, spaced_elements: bool) -> None:
        self.text = text
        self.spaced_elements = spaced_elements

    def unit(self, start: int) -> tuple[Powers, int]:
        top, end = self.product(start)
        over = _OVER.match(self.text, end)
        if over is None:
            return top, end
        self._refuse_number(over.end())
        low, end = self.power(over.end())
        if _OVER.match(self.text, end) or self._next_factor(end) is not None:
            raise self._needs_brackets()
        return top + _raise(low, -1), end

    def product(self, start: int) -> tuple[Powers, int]:
        powers, end = self.power(start)
        while (following := self._next_factor(end)) is not None:
            more, end = self.power(following)
            powers += more
        return powers, end

    def power(self, start: int) -> tuple[Powers, int]:
        if self.text.startswith("(", start):
            powers, end = self._bracket(start)
        else:
            powers, end = self._name(start)
        match = _POWER.match(self.text, end)
        if match is None:
            return powers, end
        return _raise(powers, int(match["raised"] or match["plain"])), match.end()

    def _bracket(self, start: int) -> tuple[Powers, int]:
        inner = _Reader(self.text, spaced_elements=True)
        begin = start + 1
        powers, end = inner.product(begin + _spaces(self.text, begin))
        end += _spaces(self.text, end)
        if not self.text.startswith(")", end):
            raise _unknown(self.text[start:].strip())
        return powers, end + 1

    def _name(self, start: int) -> tuple[Powers, int]:
        match = _NAME.match(self.text, start)
        if match is None:
            word = _WORD.match(self.text, start)
            raise _unknown(word[0] if word else self.text.strip())
        if match["asked"]:
            raise _asked(match["asked"])
        symbol = find_symbol(match["name"])
        if symbol is None:
            raise _unknown(match["name"])
        return ((symbol, 1),), match.end()

    def _next_factor(self, end: int) -> int | None:
        """Return where the next factor of a product starts, if there is one."""
        times = _TIMES.match(self.text, end)
        if times is not None:
            return times.end()
        start = end + _spaces(self.text, end)
        return start if start > end and self._is_spaced_factor(start) else None

    def _is_spaced_factor(self, start: int) -> bool:
        match = _NAME.match(self.text, start)
        if match is None:
            return False
        power = _POWER.match(self.text, match.end())
        if power is None and self.text[match.end() : match.end() + 1].isdigit():
            return False
        if self.spaced_elements or match[0] not in _ELEMENTS:
            return True
        return power is not None and (power["raised"] or power["plain"])[0] == "-"

    def _refuse_number(self, at: int) -> None:
        if self.text[at : at + 1].isdigit():
            hint = (
                " A unit holds no number below its line: 5.2 g in 100 mL is written "
                "as 52 g/L or 0.052 g/mL."
            )
            raise UnknownUnitError(self.text.strip(), hint)

    def _needs_brackets(self) -> AmbiguousError:
        question = (
            f"Which units of {self.text.strip()!r} stand below the line? Put them in "
            "brackets, as in J/(mol K)."
        )
        return AmbiguousError(self.text, (), question)


def _raise(powers: Powers, by: int) -> Powers:
    return tuple((symbol, power * by) for symbol, power in powers)


def _spaces(text: str, start: int) -> int:
    return len(text) - start - len(text[start:].lstrip(" "))


def _asked(spelling: str) -> AmbiguousError:
    usual, other = ASKED[spelling]
    question = (
        f"{spelling!r} could mean {usual} or {other}. In units capital and small "
        f"letters differ: which is meant?"
    )
    return AmbiguousError(spelling, (usual, other), question)


def _unknown(word: str) -> UnknownUnitError:
    known = [*SYMBOLS, *WORDS]
    folded = word.casefold()
    same = sorted(each for each in known if each.casefold() == folded)
    if same:
        return UnknownUnitError(word, f" Did you mean {same[0]!r}?")
    return UnknownUnitError(word, nearest(word, known))
