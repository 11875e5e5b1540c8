"""Typed text with its many digits, signs and spaces brought down to a few."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

from workbook.errors import UnreadError

#: Longer than any number with its unit and a word or two.
LONGEST = 80

_SUPERSCRIPTS = dict(zip("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-", strict=True))

_MEANT = {
    **_SUPERSCRIPTS,
    **dict.fromkeys("×✕✖\N{VECTOR OR CROSS PRODUCT}", "×"),
    **dict.fromkeys("·⋅∙•‧", "·"),
    **dict.fromkeys("°º˚", "°"),
    **dict.fromkeys("÷\N{FRACTION SLASH}\N{DIVISION SLASH}", "/"),
    **dict.fromkeys("\t\n\r", " "),
    "\N{MINUS SIGN}": "-",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    # It is never a thousands mark.
    "\N{ARABIC DECIMAL SEPARATOR}": ".",
    # Marks of text direction and joins, which copying from a page brings along.
    **dict.fromkeys("\u200b\u200e\u200f\u2060\u2066\u2067\u2068\u2069\ufeff", ""),
}


@dataclass(frozen=True, slots=True)
class Plain:
    """A typed text, its plain form, and where each plain character came from."""

    typed: str
    text: str
    #: Index in `typed` of each character of `text`, and one past the end.
    origin: tuple[int, ...]

    def unread(self, at: int, reason: str) -> UnreadError:
        """
        Return the error that points at a character of the typed text.

        Parameters
        ----------
        at : int
            Index in the plain text.
        reason : str
            A sentence for the student.

        Returns
        -------
        UnreadError
            Ready to be raised.
        """
        return UnreadError(self.typed, self.origin[at], reason)


def to_plain(typed: str) -> Plain:
    r"""
    Return a typed text with one kind of digit, minus, multiplication sign and space.

    Parameters
    ----------
    typed : str
        As it was typed or pasted.

    Returns
    -------
    Plain
        Superscripts are written with ``^``: ``10⁻³`` becomes ``10^-3``.

    Raises
    ------
    UnreadError
        If the text is longer than a number with its unit can be.

    Examples
    --------
    >>> to_plain("\uff12.\uff15×10⁻³ g").text
    '2.5×10^-3 g'
    """
    if len(typed) > LONGEST:
        reason = (
            f"This is {len(typed)} characters long; a number with its unit has at "
            f"most {LONGEST}. Type only the number and its unit."
        )
        beginning = f"{typed[:LONGEST]}…"
        raise UnreadError(beginning, LONGEST, reason)
    text = ""
    origin: list[int] = []
    for index, character in enumerate(typed):
        plain = _to_plain_character(character)
        if character in _SUPERSCRIPTS and typed[index - 1 : index] not in _RAISING:
            plain = f"^{plain}"
        text += plain
        origin += [index] * len(plain)
    return Plain(typed, text, (*origin, len(typed)))


#: After one of these a superscript needs no ``^`` any more.
_RAISING = {*_SUPERSCRIPTS, "^"}


def _to_plain_character(character: str) -> str:
    if character in _MEANT:
        return _MEANT[character]
    category = unicodedata.category(character)
    if category == "Nd":
        return str(unicodedata.decimal(character))
    # Other numerals, such as ½, stay as they are and are pointed at later.
    by_category = {"Zs": " ", "Pd": "-", "No": character}
    return by_category.get(category) or unicodedata.normalize("NFKC", character)
