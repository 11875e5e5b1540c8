"""The close-up: the few lines around the surface, and the eye that reads it."""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

from workbook.labfile.instrument import Kind
from workbook.picture.filling import draw_column, draw_meniscus
from workbook.picture.ink import GUIDE, PAPER, element, group, letter, outline, trace
from workbook.picture.scale import Window, ends_of
from workbook.picture.tube import Tube, draw_lines

if TYPE_CHECKING:
    from workbook.labfile.instrument import Instrument, Pattern

#: Where the plate stands in the drawing, and its size.
LEFT, TOP, WIDTH, HEIGHT = 188.0, 74.0, 150.0, 312.0
RIGHT, BOTTOM, MIDDLE = LEFT + WIDTH, TOP + HEIGHT, TOP + HEIGHT / 2

#: Down to where the words below the plate reach.
END = BOTTOM + 48

#: Height of one division: a tenth of it can be told on the screen of a telephone.
PITCH = 86.0

#: A number nearer than this to the edge of the plate would be cut.
_MARGIN = 9.0

#: The tube in the close-up; beside it there is room for the eye.
TUBE = Tube(left=LEFT + 12, right=LEFT + 108, climb=26, size=16, stroke=1.5)

#: Lines that are short enough for a wide typeface.
_AT_THE_CURVE = ("Read at eye level,", "at the lowest point", "of the curve.")
_AT_THE_COLUMN = ("Read at eye level,", "at the top", "of the column.")


def look_closer(instrument: Instrument, pattern: Pattern, divisions: float) -> Window:
    """
    Return the part of a scale that the close-up shows.

    Parameters
    ----------
    instrument : Instrument
        One with a scale.
    pattern : Pattern
        Its pattern.
    divisions : float
        Where it stands, counted from zero [-].

    Returns
    -------
    Window
        The surface stands in its middle.
    """
    reach = (HEIGHT / 2 - _MARGIN) / PITCH
    low, high = ends_of(instrument)
    first, last = ceil(divisions - reach), floor(divisions + reach)
    return Window(
        instrument=instrument,
        pattern=pattern,
        first=max(low, first),
        last=min(high, last),
        origin=divisions,
        y=MIDDLE,
        pitch=PITCH,
    )


def draw_plate(kind: Kind, lines: str) -> str:
    """
    Return the close-up.

    Parameters
    ----------
    kind : Kind
        What instrument it is.
    lines : str
        What is printed on the glass, drawn.

    Returns
    -------
    str
        With the surface in its middle, at the level of an eye.
    """
    if kind is Kind.THERMOMETER:
        content, advice = draw_column(TUBE, MIDDLE, BOTTOM), _AT_THE_COLUMN
    else:
        room = trace("V", BOTTOM, "H", TUBE.left)
        content, advice = draw_meniscus(TUBE, MIDDLE, room), _AT_THE_CURVE
    plate = element(
        "rect",
        x=LEFT,
        y=TOP,
        width=WIDTH,
        height=HEIGHT,
        rx=3,
        fill=PAPER,
        stroke=GUIDE,
    )
    walls = outline("M", TUBE.left, TOP, "V", BOTTOM, "M", TUBE.right, TOP, "V", BOTTOM)
    words = "".join(
        letter(line, LEFT, BOTTOM + 18 + 14 * row, font_size=11, fill="currentColor")
        for row, line in enumerate(advice)
    )
    parts = (plate, content, walls, lines, _draw_eye(), words)
    return group("wb-close", parts)


def draw_close_lines(kind: Kind, window: Window) -> str:
    """
    Return the lines of a scale in the close-up.

    Parameters
    ----------
    kind : Kind
        What instrument it is.
    window : Window
        What `look_closer` found.

    Returns
    -------
    str
        With the numbers of those that have one.
    """
    return draw_lines(TUBE, kind, window.lines())


def draw_frame(left: float, right: float, y: float, half: float) -> str:
    """
    Return a frame around what the close-up takes in, with lines that lead to it.

    Parameters
    ----------
    left, right : float
        The walls of the tube [-].
    y : float
        Height of the surface [-].
    half : float
        Half the height of the frame [-].

    Returns
    -------
    str
        Lines only.
    """
    left, right = left - 5, right + 5
    frame = outline(
        *("M", left, y - half, "H", right, "V", y + half, "H", left, "z"),
        stroke=GUIDE,
        stroke_width=1.2,
    )
    leads = outline(
        *("M", right, y - half, "L", LEFT, TOP),
        *("M", right, y + half, "L", LEFT, BOTTOM),
        stroke=GUIDE,
        stroke_width=0.8,
    )
    return frame + leads


def _draw_eye() -> str:
    """Draw an eye, and its line of sight up to the glass."""
    x = RIGHT - 4
    sight = outline(
        *("M", TUBE.right + 2, MIDDLE, "H", x - 19),
        stroke=GUIDE,
        stroke_width=1.2,
        stroke_dasharray="4 3",
    )
    lids = outline(
        *("M", x - 18, MIDDLE, "q", 9, -11, 18, 0, "q", -9, 11, -18, 0, "z"),
        stroke=GUIDE,
        stroke_width=1.3,
    )
    pupil = element("circle", cx=x - 9, cy=MIDDLE, r=3, fill=GUIDE)
    return sight + lids + pupil
