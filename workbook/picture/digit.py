"""Digits of seven bars, as a display shows them."""

from __future__ import annotations

from workbook.picture.ink import DIGIT, element, group, number, trace

#: Each bar, in a cell of 14 by 28.
_BARS = {
    "a": "M2 0h10",
    "b": "M14 1.2v11.6",
    "c": "M14 15.2v11.6",
    "d": "M2 28h10",
    "e": "M0 15.2v11.6",
    "f": "M0 1.2v11.6",
    "g": "M2 14h10",
}

#: The bars of each digit.
_DIGITS = {
    "0": "abcdef",
    "1": "bc",
    "2": "abdeg",
    "3": "abcdg",
    "4": "bcfg",
    "5": "acdfg",
    "6": "acdefg",
    "7": "abc",
    "8": "abcdefg",
    "9": "abcdfg",
}

#: From one digit to the next, and the room that a point takes.
_PITCH, _POINT = 22.0, 9.0


def draw_digits(text: str, right: float, y: float) -> str:
    """
    Return a number in digits of seven bars.

    Parameters
    ----------
    text : str
        Digits, and at most one point.
    right : float
        Where it ends [-].
    y : float
        Its upper edge [-].

    Returns
    -------
    str
        A path of the class ``wb-digit`` for each digit, from left to right.
    """
    width = sum(_POINT if sign == "." else _PITCH for sign in text)
    x = right - width
    parts = []
    for sign in text:
        if sign == ".":
            data = trace("M", x + 1, y + 28, "h", 3.4)
            parts.append(element("path", class_="wb-point", d=data))
            x += _POINT
        else:
            data = "".join(_BARS[bar] for bar in _DIGITS[sign])
            place = f"translate({number(x)} {number(y)})"
            parts.append(element("path", class_="wb-digit", d=data, transform=place))
            x += _PITCH
    return group("wb-digits", parts, stroke=DIGIT, stroke_width=3.4, fill="none")
