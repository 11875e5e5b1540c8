"""
The order in which a measurement is typed: number, unit, spread, a few words.

::

    phrase = [lead] (numeral [unit] [spread] | "(" numeral spread ")" [unit]) [words]
    spread = "±" numeral [unit]
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AmbiguousError, BlankError
from workbook.measure.numeral import Comma, Numeral, read_numeral
from workbook.measure.units import Unit, convert_difference, scan_unit

if TYPE_CHECKING:
    from decimal import Decimal

    from workbook.measure.plain import Plain

_BLANK = re.compile(r"[?.…_\s-]*|n/?a\.?", re.IGNORECASE)
_LEAD = re.compile(
    r"(?:\s|[~≈≃≅=]|(?:about|approximately|approx|around|circa|ca)\b\.?)*",
    re.IGNORECASE,
)
_SPACES = re.compile(r"\s*")
_PLUS_MINUS = re.compile(r"\s*(?:±|\+/-|\+-)\s*")
_SIGNED_DIGIT = r"(?=[+-]?\s*[.,]?\d)"
_JOINT = re.compile(rf"\s*(?:-|to\b)\s*{_SIGNED_DIGIT}", re.IGNORECASE)
_CALCULATION = re.compile(rf"\s*(?:[*×·/^+]|x\b)[\s*(]*{_SIGNED_DIGIT}", re.IGNORECASE)
_NUMBER_OR_SIGN = re.compile(r"(?<![^\s(\[])(?:[=<>±~≈*×·/+^]|(?:-\s*)?[.,]?\d)")
#: Marks that end a sentence; they say nothing about a measurement.
_STOPS = " .,;:!"


@dataclass(frozen=True, slots=True)
class Phrase:
    """A number with the unit and the spread that were typed with it."""

    numeral: Numeral
    unit: Unit | None
    #: In `unit`.
    spread: Decimal | None
    #: Index behind it, in the plain text.
    end: int


def find_start(plain: Plain) -> int:
    """
    Return where the measurement begins: behind "about", "~" and the like.

    Parameters
    ----------
    plain : Plain
        The text.

    Returns
    -------
    int
        Index of the first character.

    Raises
    ------
    BlankError
        If there is nothing but blanks, question marks or ``n/a``.
    """
    if _BLANK.fullmatch(plain.text):
        raise BlankError(plain.typed)
    return _end(_LEAD, plain, 0)


def read_phrase(plain: Plain, start: int, comma: Comma) -> Phrase:
    """
    Return the measurement that stands at a place.

    Parameters
    ----------
    plain : Plain
        The text.
    start : int
        Index of its first character.
    comma : Comma
        What a comma before exactly three digits is.

    Returns
    -------
    Phrase
        More text may follow behind its end.

    Raises
    ------
    UnreadError
        If the number or the spread can't be read.
    AmbiguousError
        If the text is a calculation, or can be read in two ways.
    UnknownUnitError
        If a word stands where only a unit can.
    DimensionError
        If value and spread have units that measure different things.
    """
    if plain.text.startswith("(", start):
        return _read_bracketed(plain, start, comma)
    numeral = read_numeral(plain, start, comma)
    unit, end = _read_unit(plain, numeral.end)
    spread = _read_spread(plain, end, comma)
    if spread is None:
        return Phrase(numeral, unit, None, end)
    spread_unit, end = _read_unit(plain, spread.end)
    return _join(numeral, unit or spread_unit, spread, spread_unit, end)


def find_second(plain: Plain, end: int) -> int | None:
    """
    Return where the second value of a range begins, if there is one.

    Parameters
    ----------
    plain : Plain
        The text.
    end : int
        Index behind the first value.

    Returns
    -------
    int or None
        Index of the second value, behind ``-`` or ``to``.
    """
    joint = _JOINT.match(plain.text, end)
    return joint.end() if joint else None


def read_rest(plain: Plain, end: int) -> str:
    """
    Return the words behind a measurement, as they were typed.

    Parameters
    ----------
    plain : Plain
        The text.
    end : int
        Index behind the measurement.

    Returns
    -------
    str
        Without the spaces and stops around them.

    Raises
    ------
    UnreadError
        If they hold another number or a sign: they can't be left aside.
    AmbiguousError
        If the text goes on as a calculation.
    """
    _refuse_calculation(plain, end)
    words = plain.text[end:]
    other = _NUMBER_OR_SIGN.search(words)
    if other:
        reason = (
            f"The value should end before {words[other.start() :].strip()!r}. "
            "Type one number with its unit; a power of ten is written 2.5 × 10^-3."
        )
        raise plain.unread(end + other.start(), reason)
    return plain.typed[plain.origin[end] :].strip(_STOPS)


def _read_bracketed(plain: Plain, start: int, comma: Comma) -> Phrase:
    numeral = read_numeral(plain, _end(_SPACES, plain, start + 1), comma)
    _refuse_calculation(plain, numeral.end)
    spread = _read_spread(plain, numeral.end, comma)
    end = spread.end if spread else numeral.end
    end = _end(_SPACES, plain, end)
    if not plain.text.startswith(")", end):
        reason = "The bracket should close here, as in (13.6 ± 0.1) g."
        raise plain.unread(end, reason)
    unit, end = _read_unit(plain, end + 1)
    if spread is None:
        return Phrase(numeral, unit, None, end)
    return _join(numeral, unit, spread, unit, end)


def _read_unit(plain: Plain, end: int) -> tuple[Unit | None, int]:
    """Return the unit behind a number, if any text but a number's own stands there."""
    _refuse_calculation(plain, end)
    start = _end(_SPACES, plain, end)
    something_else = (
        _JOINT.match(plain.text, end)
        or _NUMBER_OR_SIGN.match(plain.text[start:])
        or not plain.text[start:].strip(_STOPS)
    )
    return (None, end) if something_else else scan_unit(plain.text, start)


def _read_spread(plain: Plain, end: int, comma: Comma) -> Numeral | None:
    sign = _PLUS_MINUS.match(plain.text, end)
    if sign is None:
        return None
    spread = read_numeral(plain, sign.end(), comma)
    if spread.value.is_signed():
        raise plain.unread(sign.end(), "What stands behind ± can't be negative.")
    return spread


def _join(
    numeral: Numeral,
    unit: Unit | None,
    spread: Numeral,
    spread_unit: Unit | None,
    end: int,
) -> Phrase:
    width = spread.value
    if unit is not None and spread_unit is not None:
        width = convert_difference(width, spread_unit, unit)
    return Phrase(numeral, unit, width, end)


def _refuse_calculation(plain: Plain, end: int) -> None:
    if _PLUS_MINUS.match(plain.text, end):
        return
    if _CALCULATION.match(plain.text, end):
        question = (
            f"{plain.typed.strip()!r} is a calculation. What is its result? Type that, "
            "with the figures that it deserves and its unit."
        )
        raise AmbiguousError(plain.typed, (), question)


def _end(pattern: re.Pattern[str], plain: Plain, start: int) -> int:
    """Return where a pattern that can be empty ends."""
    match = pattern.match(plain.text, start)
    return match.end() if match else start
