"""Numerals as they are typed: decimal marks, grouped digits, powers of ten."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING

from workbook.errors import AmbiguousError

if TYPE_CHECKING:
    from workbook.errors import UnreadError
    from workbook.measure.plain import Plain


class Comma(Enum):
    """What the comma of ``1,500`` is in a course; elsewhere a text says it itself."""

    #: Nobody knows: the student is asked.
    ASK = "ask"
    #: A decimal mark: one and a half.
    DECIMAL = "decimal"
    #: A thousands mark: fifteen hundred.
    THOUSANDS = "thousands"


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number that was read, and where its text ends."""

    value: Decimal
    #: Significant figures, trailing zeros of a whole number counted.
    figures: int
    #: Significant figures, trailing zeros of a whole number not counted.
    least_figures: int
    #: Power of ten of the last written digit.
    place: int
    #: Index behind its last character, in the plain text.
    end: int


#: Powers of ten beyond this are no measurement, and costly to write out.
LARGEST_POWER = 60
#: Digits of one numeral.
MOST_DIGITS = 40

# Spaces may part digits by threes, on both sides of the decimal mark.
_WHOLE = r"\d{1,3}(?:\ \d{3})+(?!\d)|\d+"
_FRACTION = r"(?:\d{3}\ )+\d{1,3}(?!\d|\s*\^|\s*\*\*)|\d+"
_MANTISSA = re.compile(
    rf"""
      (?P<points>[1-9]\d{{0,2}}(?:\.\d{{3}})+),(?P<after_points>\d+)
    | (?P<commas>[1-9]\d{{0,2}}(?:,\d{{3}})+)\.(?P<after_commas>\d+)
    | (?P<thousands>[1-9]\d{{0,2}}(?:,\d{{3}}){{2,}})(?![.,]?\d)
    | (?P<whole>{_WHOLE})(?:(?P<mark>\.|,(?=\d))(?P<fraction>{_FRACTION})?)?
    | [.,](?P<bare>{_FRACTION})
    """,
    re.VERBOSE,
)
_EITHER = re.compile(r"[1-9]\d{0,2},\d{3}")
_RAISED = (
    r"10\s*(?:\^|\*\*)\s*(?P<open>[({])?\s*(?P<raised>[+-]?\s?\d+)(?(open)\s*[)}])"
)
_POWER = re.compile(
    rf"(?:\s*[x×·*]\s*|\s+){_RAISED}"
    r"|\s*[x×·*]\s*10\s?(?P<signed>[+-]\d+)"
    r"|\s?e\s?(?P<letter>[+-]?\d+)",
    re.IGNORECASE,
)
_ONLY_POWER = re.compile(_RAISED)
_MORE_DIGITS = re.compile(r"[.,']?\d|[½⅓⅔¼¾]")
#: Letters that are typed for digits.
_LOOKALIKES = {"l": "1", "I": "1", "O": "0", "o": "0"}


def read_numeral(plain: Plain, start: int, comma: Comma) -> Numeral:
    """
    Return the number that stands at a place.

    Parameters
    ----------
    plain : Plain
        The text.
    start : int
        Index of its first character, sign included.
    comma : Comma
        What a comma before exactly three digits is.

    Returns
    -------
    Numeral
        Its value keeps the written trailing zeros.

    Raises
    ------
    UnreadError
        If no number stands there, pointing at the character that is none.
    AmbiguousError
        If the comma can be read in two ways and *comma* says to ask.
    """
    sign, begin = _read_sign(plain.text, start)
    whole, fraction, end = _read_mantissa(plain, begin, comma)
    power, end = _read_power(plain, begin, end)
    _refuse_more(plain, end)
    digits = (whole + (fraction or "")).lstrip("0")
    if len(digits) > MOST_DIGITS:
        reason = f"This number has {len(digits)} digits; {MOST_DIGITS} is the most."
        raise plain.unread(begin, reason)
    value = Decimal(f"{sign}{whole or 0}.{fraction or ''}E{power}")
    least = digits.rstrip("0") if fraction is None else digits
    return Numeral(
        value=value,
        figures=max(len(digits), 1),
        least_figures=max(len(least), 1),
        place=power - len(fraction or ""),
        end=end,
    )


def _read_sign(text: str, start: int) -> tuple[str, int]:
    sign = text[start : start + 1]
    begin = start + 1 if sign in {"+", "-"} else start
    while text[begin : begin + 1] == " ":
        begin += 1
    return sign if sign == "-" else "", begin


def _read_mantissa(
    plain: Plain, begin: int, comma: Comma
) -> tuple[str, str | None, int]:
    """Return the digits before the mark, those behind (None: no mark), and the end."""
    only = _ONLY_POWER.match(plain.text, begin)
    if only:
        return "1", None, begin
    match = _MANTISSA.match(plain.text, begin)
    if match is None:
        raise _no_number(plain, begin)
    _refuse_more(plain, match.end())
    whole, fraction = _split(match)
    if _EITHER.fullmatch(match[0]):
        if comma is Comma.ASK:
            raise _ask_comma(plain, match[0])
        if comma is Comma.THOUSANDS:
            return whole + (fraction or ""), None, match.end()
    return whole, fraction, match.end()


def _split(match: re.Match[str]) -> tuple[str, str | None]:
    pairs = (
        (match["points"], match["after_points"]),
        (match["commas"], match["after_commas"]),
        (match["thousands"], None),
        (match["whole"], (match["fraction"] or "") if match["mark"] else None),
        ("", match["bare"]),
    )
    whole, fraction = next(pair for pair in pairs if pair[0] is not None and any(pair))
    strip = str.maketrans("", "", " .,")
    return whole.translate(strip), fraction and fraction.translate(strip)


def _read_power(plain: Plain, begin: int, end: int) -> tuple[int, int]:
    pattern = _ONLY_POWER if begin == end else _POWER
    match = pattern.match(plain.text, end)
    if match is None:
        return 0, end
    written = next(each for each in reversed(match.groups()) if each)
    power = int(written.replace(" ", ""))
    if abs(power) > LARGEST_POWER:
        reason = (
            f"The power of ten {power} is beyond anything measured here; the largest "
            f"is {LARGEST_POWER}, the smallest {-LARGEST_POWER}."
        )
        raise plain.unread(end, reason)
    return power, match.end()


def _refuse_more(plain: Plain, end: int) -> None:
    """Refuse a number that goes on where it should have ended."""
    rest = plain.text[end:]
    if _MORE_DIGITS.match(rest):
        reason = f"A number can't go on with {rest[0]!r} here. Type one number."
        raise plain.unread(end, reason)
    letter = rest[:1]
    # An l behind a number is a litre, unless the number goes on behind it.
    if letter in _LOOKALIKES and (letter != "l" or _MORE_DIGITS.match(rest[1:])):
        raise _lookalike(plain, end)


def _no_number(plain: Plain, at: int) -> UnreadError:
    rest = plain.text[at:]
    if rest[:1] in _LOOKALIKES and rest[1:2] in set("0123456789.,"):
        return _lookalike(plain, at)
    if not rest:
        return plain.unread(at, "The text ends where a number is expected.")
    reason = (
        f"A number is expected where {rest[0]!r} stands. Type digits, with a point "
        "for the decimals, and the unit behind them, such as 13.6 g."
    )
    return plain.unread(at, reason)


def _lookalike(plain: Plain, at: int) -> UnreadError:
    letter = plain.text[at]
    digit = _LOOKALIKES[letter]
    return plain.unread(
        at, f"The letter {letter} stands where the digit {digit} seems to be meant."
    )


def _ask_comma(plain: Plain, numeral: str) -> AmbiguousError:
    decimal, thousands = numeral.replace(",", "."), numeral.replace(",", "")
    question = (
        f"Is {numeral} meant as {decimal}, with decimals, or as {thousands}? Type it "
        "without the comma."
    )
    return AmbiguousError(plain.typed, (decimal, thousands), question)
