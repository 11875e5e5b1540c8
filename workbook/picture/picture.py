"""
The picture of an instrument, with its text alternative.

It is drawn where the true value is known and sent away as a drawing. The value
stands nowhere in it, but as the height of a surface on a scale, or as the bars of a
display.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from workbook.errors import MatterError
from workbook.labfile.instrument import Instrument, Kind
from workbook.measure.rounding import write
from workbook.picture.balance import draw_balance
from workbook.picture.ink import element, letter, number
from workbook.picture.pipette import draw_pipette
from workbook.picture.plate import LEFT
from workbook.picture.scale import divisions_of
from workbook.picture.vessel import draw_vessel, measure_vessel
from workbook.picture.words import describe, print_on, say

if TYPE_CHECKING:
    from decimal import Decimal

#: Width of every drawing.
_WIDTH = 340

#: Above and below a top-loading balance, and one that stands in glass.
_OPEN, _CLOSED = (72, 256), (4, 256)

#: Below a pipette with one ring, and below any glass.
_PIPETTE, _MARGIN = 466, 6


def draw_picture(instrument: Instrument, shown: Decimal, name: str) -> str:
    """
    Return the picture of an instrument.

    Parameters
    ----------
    instrument : Instrument
        One of the table.
    shown : Decimal
        Its value, in the instrument's unit, to its last place.
    name : str
        Of the reading; no other picture on the same page has it.

    Returns
    -------
    str
        An SVG with a title and a description.

    Raises
    ------
    MatterError
        If the value lies off the instrument's scale, or between two of its steps.

    Examples
    --------
    >>> from decimal import Decimal
    >>> from workbook.labfile.instrument import find_instrument
    >>> svg = draw_picture(find_instrument("cylinder, 25 mL"), Decimal("12.6"), "oil")
    >>> "12.6" in svg
    False
    """
    check_shown(instrument, shown)
    title, told = f"wb-{name}-is", f"wb-{name}-shows"
    (top, bottom), drawn = _draw(instrument, shown)
    parts = (
        element("title", escape(describe(instrument)), id=title),
        element("desc", escape(say(instrument, shown)), id=told),
        drawn,
    )
    return element(
        "svg",
        "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        class_="wb-picture",
        viewBox=f"0 {top} {_WIDTH} {number(bottom - top)}",
        role="img",
        aria_labelledby=f"{title} {told}",
        font_family="var(--jp-ui-font-family, sans-serif)",
    )


def check_shown(instrument: Instrument, shown: Decimal) -> None:
    """
    Refuse what an instrument can't show.

    Parameters
    ----------
    instrument : Instrument
        One of the table.
    shown : Decimal
        In the instrument's unit.

    Raises
    ------
    MatterError
        If the value lies off the instrument's scale, or between two of its steps.
        The sentence does not state the value, which may be a student's.
    """
    low, high = write(instrument.lowest), write(instrument.capacity)
    unit = instrument.unit.symbol
    if not (shown.is_finite() and instrument.lowest <= shown <= instrument.capacity):
        msg = (
            f"A value lies off the scale of {instrument.name!r}, which shows {low} to "
            f"{high} {unit}. Narrow the range from which it is drawn."
        )
        raise MatterError(msg)
    if shown % instrument.step:
        msg = (
            f"A value lies between two steps of {instrument.name!r}, which is read to "
            f"{write(instrument.step)} {unit}. Round it to that."
        )
        raise MatterError(msg)


def _draw(instrument: Instrument, shown: Decimal) -> tuple[tuple[float, float], str]:
    """Return from where to where a drawing reaches, and the drawing."""
    if instrument.has_display:
        reach = _OPEN if instrument.kind is Kind.BALANCE else _CLOSED
        return reach, draw_balance(instrument, shown)
    printed = _print(instrument)
    if (pattern := instrument.pattern) is None:
        return (0, _PIPETTE + _MARGIN), printed + draw_pipette(instrument)
    divisions = divisions_of(instrument, shown)
    bottom = measure_vessel(instrument, pattern, divisions) + _MARGIN
    return (0, bottom), printed + draw_vessel(instrument, pattern, divisions)


def _print(instrument: Instrument) -> str:
    """Draw what is printed on the glass, over the close-up."""
    capacity, _, rest = print_on(instrument).partition(", ")
    rows = (("Printed on the glass:", 12), (capacity, 15), (rest.replace(",", " "), 12))
    y, drawn = 18, ""
    for text, size in rows:
        drawn += letter(text, LEFT, y, font_size=size, fill="currentColor")
        y += 19
    return drawn
