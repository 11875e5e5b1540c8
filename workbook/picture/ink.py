"""
The pieces of a vector drawing, as text.

Every colour is the text's own, or a variable of the page with a fallback, so that
a picture holds on light and on dark paper, and in a file by itself. Coordinates
are rounded to a hundredth of a unit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from collections.abc import Iterable

#: What the glass holds, and its surface.
LIQUID = "var(--wb-liquid, #cfe4f2)"
SURFACE = "var(--wb-surface, #1b4b73)"
#: The column of a thermometer.
COLUMN = "var(--wb-column, #b3261e)"
#: Lines that belong to no instrument: the frame of a close-up, the line of sight.
GUIDE = "var(--wb-plain, #4d5358)"
#: The pane of a display, and its digits.
PANE = "var(--wb-pane, #dfe6d6)"
DIGIT = "var(--wb-digit, #16241a)"
#: The paper on which a close-up stands.
PAPER = "var(--jp-layout-color1, none)"


def number(value: float) -> str:
    """
    Return a coordinate as it is written.

    Parameters
    ----------
    value : float
        In units of the drawing [-].

    Returns
    -------
    str
        To a hundredth, without trailing zeros.

    Examples
    --------
    >>> number(12.0), number(-0.001), number(7.456)
    ('12', '0', '7.46')
    """
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def trace(*parts: str | float) -> str:
    """
    Return the data of a path.

    Parameters
    ----------
    *parts : str or float
        Commands and coordinates, in order [-].

    Returns
    -------
    str
        As an attribute takes it.

    Examples
    --------
    >>> trace("M", 1, 2.5, "h", 3)
    'M1 2.5h3'
    """
    text = ""
    for part in parts:
        if isinstance(part, str):
            text += part
        else:
            gap = "" if not text or text[-1].isalpha() else " "
            text += f"{gap}{number(part)}"
    return text


def element(tag: str, content: str | None = None, **attributes: str | float) -> str:
    """
    Return one element.

    Parameters
    ----------
    tag : str
        Its name.
    content : str or None
        What stands in it, already escaped; None for nothing.
    **attributes : str or float
        Underscores stand for hyphens, and one at the end for nothing; numbers are
        coordinates [-].

    Returns
    -------
    str
        Attribute values are escaped.

    Examples
    --------
    >>> element("path", class_="wb-long", d="M0 0h9")
    '<path class="wb-long" d="M0 0h9"/>'
    """
    written = "".join(
        f' {name.rstrip("_").replace("_", "-")}="{_attribute(value)}"'
        for name, value in attributes.items()
    )
    if content is None:
        return f"<{tag}{written}/>"
    return f"<{tag}{written}>{content}</{tag}>"


def _attribute(value: str | float) -> str:
    if isinstance(value, str):
        return escape(value, {'"': "&quot;"})
    return number(value)


def group(name: str, parts: Iterable[str], **attributes: str | float) -> str:
    """
    Return several elements as one.

    Parameters
    ----------
    name : str
        Its class.
    parts : iterable of str
        From back to front.
    **attributes : str or float
        As in `element` [-].

    Returns
    -------
    str
        With the parts inside.
    """
    return element("g", "".join(parts), class_=name, **attributes)


def letter(content: str, x: float, y: float, **attributes: str | float) -> str:
    """
    Return a text.

    Parameters
    ----------
    content : str
        Plain; it is escaped here.
    x, y : float
        Where its baseline begins [-].
    **attributes : str or float
        As in `element` [-].

    Returns
    -------
    str
        In the colour of the drawing's text.
    """
    return element("text", escape(content), x=x, y=y, **attributes)


def outline(*parts: str | float, **attributes: str | float) -> str:
    """
    Return a line of glass or metal.

    Parameters
    ----------
    *parts : str or float
        As in `trace` [-].
    **attributes : str or float
        As in `element` [-].

    Returns
    -------
    str
        Not filled.
    """
    plain: dict[str, str | float] = {
        "fill": "none",
        "stroke": "currentColor",
        "stroke_width": 1.4,
        "stroke_linejoin": "round",
    }
    return element("path", None, d=trace(*parts), **(plain | attributes))
