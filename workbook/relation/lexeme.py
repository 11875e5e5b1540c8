"""
The pieces that a relation is written in: numbers, names, signs.

Two ways of writing are read. A lab file keeps to the plain keyboard. What a
student types may also hold the signs for times, divided by and minus that a phone
or a word processor offers, and a name with a formula in brackets: ``M(NaOH)``.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import Enum, auto

from workbook.errors import RelationError

#: Functions of a lab file, with the least and the most arguments that each takes.
CALLS = {
    "concordant": (3, 9),
    "exp10": (1, 1),
    "log10": (1, 1),
    "max": (2, 8),
    "min": (2, 8),
    "ratio": (2, 3),
    "sqrt": (1, 1),
}

DIGIT_LIMIT = 30


class Kind(Enum):
    """What a piece is."""

    NUMBER = auto()
    NAME = auto()
    SIGN = auto()
    END = auto()


@dataclass(frozen=True, slots=True)
class Lexeme:
    """A piece; *position* counts characters of the text from 0."""

    kind: Kind
    text: str
    position: int


#: Signs that a student may type, and what each stands for.
STUDENT_SIGNS = {
    "\N{MULTIPLICATION SIGN}": "*",
    "\N{MIDDLE DOT}": "*",
    "\N{DOT OPERATOR}": "*",
    "\N{BULLET OPERATOR}": "*",
    "\N{DIVISION SIGN}": "/",
    "\N{DIVISION SLASH}": "/",
    "\N{MINUS SIGN}": "-",
    "\N{EN DASH}": "-",
}

_SIGNS = frozenset("+-*/^(),=")
_BLANKS = " \t\r\n\u00a0\u2007\u2009\u202f"

# A Greek letter that looks like a Latin one would make another name that reads the
# same, so it is left out, and pointed out where it is met.
_LOOKALIKES = {
    "\N{GREEK CAPITAL LETTER ALPHA}": "A",
    "\N{GREEK CAPITAL LETTER BETA}": "B",
    "\N{GREEK CAPITAL LETTER EPSILON}": "E",
    "\N{GREEK CAPITAL LETTER ZETA}": "Z",
    "\N{GREEK CAPITAL LETTER ETA}": "H",
    "\N{GREEK CAPITAL LETTER IOTA}": "I",
    "\N{GREEK CAPITAL LETTER KAPPA}": "K",
    "\N{GREEK CAPITAL LETTER MU}": "M",
    "\N{GREEK CAPITAL LETTER NU}": "N",
    "\N{GREEK CAPITAL LETTER OMICRON}": "O",
    "\N{GREEK CAPITAL LETTER RHO}": "P",
    "\N{GREEK CAPITAL LETTER TAU}": "T",
    "\N{GREEK CAPITAL LETTER UPSILON}": "Y",
    "\N{GREEK CAPITAL LETTER CHI}": "X",
    "\N{GREEK SMALL LETTER OMICRON}": "o",
}
_GREEK = "ΓΔΘΛΞΠΣΦΨΩα-ξπ-ω"
_WORD = rf"[A-Za-z{_GREEK}][A-Za-z{_GREEK}0-9_]*"
_ELEMENT = "[A-Z][a-z]?[0-9]*"

_NAME = re.compile(rf"{_WORD}(?:\.{_WORD})*")
# Only one repeat stands around an element, so that no text is tried in many ways.
_LABEL = re.compile(rf"\((?:{_ELEMENT}|\((?:{_ELEMENT})+\)[0-9]*)+\)")
_NUMBER = re.compile(r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_FIGURES = re.compile(r"[0-9.][0-9.,]*")
_LAB_FIGURES = re.compile(r"[0-9.]+")

_SCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")


def split(text: str, *, student: bool) -> tuple[Lexeme, ...]:
    """
    Return the pieces of a text.

    Parameters
    ----------
    text : str
        A relation.
    student : bool
        True for what a student types, False for a lab file.

    Returns
    -------
    tuple of Lexeme
        In order, blanks left out; the last is of the kind ``END``.

    Raises
    ------
    RelationError
        At the first character that has no meaning, or a number that can't be
        read.

    Examples
    --------
    >>> [piece.text for piece in split("3M(NaOH) * x", student=True)]
    ['3', 'M(NaOH)', '*', 'x', '']
    """
    pieces = []
    at = 0
    while at < len(text):
        if text[at] in _BLANKS:
            at += 1
            continue
        piece, length = _piece(text, at, student=student)
        pieces.append(piece)
        at += length
    return (*pieces, Lexeme(Kind.END, "", len(text)))


def _piece(text: str, at: int, *, student: bool) -> tuple[Lexeme, int]:
    if text.startswith("**", at):
        return Lexeme(Kind.SIGN, "^", at), 2
    sign = STUDENT_SIGNS.get(text[at], text[at]) if student else text[at]
    if sign in _SIGNS:
        return Lexeme(Kind.SIGN, sign, at), 1
    if text[at] in "0123456789.":
        found = _number(text, at, student=student)
        return Lexeme(Kind.NUMBER, found, at), len(found)
    return _name(text, at, student=student)


def _name(text: str, at: int, *, student: bool) -> tuple[Lexeme, int]:
    match = _NAME.match(text, at)
    if match is None:
        raise RelationError(text, at, _strange(text[at], at))
    name = match[0]
    if student and name not in CALLS and (label := _LABEL.match(text, match.end())):
        name += label[0]
    return Lexeme(Kind.NAME, name, at), len(name)


def _number(text: str, at: int, *, student: bool) -> str:
    run = (_FIGURES if student else _LAB_FIGURES).match(text, at)
    match = _NUMBER.match(text, at)
    if match is None or (run and run.end() > match.end()):
        found = run[0] if run else text[at]
        raise RelationError(text, at, _misshapen(found, at))
    digits = sum(character.isdigit() for character in match[0])
    power = re.split("[eE]", match[0])[1:] or ["0"]
    if digits > DIGIT_LIMIT or abs(int(power[0])) > DIGIT_LIMIT:
        reason = (
            f"The number at character {at + 1} is too long: it may have "
            f"{DIGIT_LIMIT} digits, and a power of ten up to {DIGIT_LIMIT}."
        )
        raise RelationError(text, at, reason)
    return match[0]


def _misshapen(found: str, at: int) -> str:
    shown = found if len(found) <= DIGIT_LIMIT else f"{found[:DIGIT_LIMIT]}..."
    where = f"{shown!r} at character {at + 1} is not a number"
    whole, _, rest = found.partition(",")
    if "," not in found:
        return f"{where}; write digits and at most one point, such as 12.5 or 0.5."
    if whole.isdigit() and rest.isdigit() and len(found) <= DIGIT_LIMIT:
        return f"{where}, because of its comma. Use a point: {whole}.{rest}"
    return f"{where}. Use a point as the decimal mark, and no other mark."


def _strange(character: str, at: int) -> str:
    called = unicodedata.name(character, f"U+{ord(character):04X}")
    where = f"Character {at + 1} is {character!r} ({called}), which"
    plain = character.translate(_SCRIPTS)
    if character in _LOOKALIKES:
        return f"{where} only looks like {_LOOKALIKES[character]!r}; type that letter."
    if character in STUDENT_SIGNS:
        return f"{where} is not used in a lab file; write {STUDENT_SIGNS[character]!r}."
    if plain != character:
        how = f"^{plain}" if "SUPERSCRIPT" in called else plain
        return f"{where} is not read here; write {how!r} on the line."
    return (
        f"{where} has no meaning here. Use numbers, names of English or Greek "
        "letters, the signs + - * / ^ and round brackets."
    )
