"""A balance: a pan with a vessel, and a display; an analytical one stands in glass."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.instrument import Kind
from workbook.measure.rounding import write
from workbook.picture.digit import draw_digits
from workbook.picture.ink import DIGIT, PANE, element, group, letter, outline

if TYPE_CHECKING:
    from decimal import Decimal

    from workbook.labfile.instrument import Instrument

#: A body on two feet.
_BODY = (
    "M40 132H300q6 0 8 6L324 214q2 8-6 8H22q-8 0-6-8L32 138q2-6 8-6z"
    " M44 222v6h24v-6M272 222v6h24v-6"
)
#: A pan on its stem.
_PAN = "M162 132v-10h16v10M98 122q0-6 8-6H234q8 0 8 6z"
#: A dish with a lip.
_VESSEL = "M130 86h80M134 86q2 30 14 30h44q12 0 14-30"
#: Panes of glass around the pan, with the knob of a door.
_SHIELD = "M64 132V16H276V132M64 28H276M170 28V22M150 16v-6h40v6"
#: The key that sets the display to zero.
_KEY = "M277 167h27q4 0 5 4l2 15q0 5-5 5H279q-5 0-5-5V170q0-3 3-3z"

#: Where the digits end, and their upper edge.
_DIGITS_END, _DIGITS_TOP = 238.0, 164.0


def draw_balance(instrument: Instrument, shown: Decimal) -> str:
    """
    Return a balance with what its display shows.

    Parameters
    ----------
    instrument : Instrument
        One with a display.
    shown : Decimal
        To the last place that it shows.

    Returns
    -------
    str
        Groups of the classes ``wb-whole`` and ``wb-digits``.
    """
    shield = outline(_SHIELD) if instrument.kind is Kind.ANALYTICAL else ""
    pane = element(
        "rect",
        x=44,
        y=150,
        width=220,
        height=54,
        rx=3,
        fill=PANE,
        stroke="currentColor",
    )
    key = outline(_KEY) + letter(
        "Tare", 292.5, 184, font_size=10, fill="currentColor", text_anchor="middle"
    )
    body = (shield, outline(_PAN), outline(_VESSEL), outline(_BODY), key, pane)
    return "".join(
        (
            group("wb-whole", body),
            draw_digits(write(shown), _DIGITS_END, _DIGITS_TOP),
            letter(instrument.unit.symbol, 243, 192, font_size=21, fill=DIGIT),
            _say_net() if instrument.is_tared else "",
        )
    )


def _say_net() -> str:
    """Draw the sign of a display from which the vessel has been taken off."""
    sign = letter("NET", 50, 162, font_size=10, font_weight="bold", fill=DIGIT)
    told = letter(
        "Tared: the empty vessel was set to zero.",
        170,
        247,
        font_size=12,
        fill="currentColor",
        text_anchor="middle",
    )
    return sign + told
