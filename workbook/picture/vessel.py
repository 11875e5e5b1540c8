"""Glassware with a scale: the instrument, or a part of it, and where it is read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.instrument import Kind
from workbook.picture import plate
from workbook.picture.figure import draw_figure
from workbook.picture.filling import fill_tube
from workbook.picture.glass import BREAK, Glass, draw_glass, fill_foot
from workbook.picture.ink import group
from workbook.picture.scale import Window, choose_part, ends_of
from workbook.picture.tube import Tube, draw_lines

if TYPE_CHECKING:
    from workbook.labfile.instrument import Instrument, Pattern

#: Height of one division in the drawing of the instrument.
_PITCH = 6.7

#: Where the upper line of a scale stands; and the tube above and below the scale.
_TOP, _HEAD, _FOOT = 56.0, 26.0, 12.0

#: The middle of an instrument that stands alone, and of one beside its figure.
_WHOLE_X, _PART_X = 88.0, 112.0

#: Divisions that the frame of the close-up takes in, to either side.
_FRAMED = 1.75


def draw_vessel(instrument: Instrument, pattern: Pattern, divisions: float) -> str:
    """
    Return an instrument with a scale, and a close-up of where it is read.

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
    str
        Groups of the classes ``wb-whole`` and ``wb-close``, and where only a part is
        drawn, ``wb-figure``.
    """
    window = _choose_window(instrument, pattern, divisions)
    is_part = not (window.starts and window.ends)
    glass = _place_glass(window)
    figure = draw_figure(window, divisions) if is_part else ""
    close = plate.look_closer(instrument, pattern, divisions)
    lines = plate.draw_close_lines(instrument.kind, close)
    y = window.height(divisions)
    return "".join(
        (
            figure,
            group("wb-whole", _draw_parts(window, glass, divisions)),
            plate.draw_frame(glass.left, glass.right, y, _FRAMED * _PITCH),
            plate.draw_plate(instrument.kind, lines),
        )
    )


def _choose_window(
    instrument: Instrument, pattern: Pattern, divisions: float
) -> Window:
    part = choose_part(instrument, pattern, divisions)
    first, last = part[0], part[-1]
    upper = first if instrument.reads_down else last
    return Window(
        instrument=instrument,
        pattern=pattern,
        first=first,
        last=last,
        origin=upper,
        y=_TOP,
        pitch=_PITCH,
    )


def measure_vessel(instrument: Instrument, pattern: Pattern, divisions: float) -> float:
    """
    Return how far down an instrument and its close-up reach.

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
    float
        In units of the drawing [-].
    """
    glass = _place_glass(_choose_window(instrument, pattern, divisions))
    return max(glass.end, plate.END)


def _place_glass(window: Window) -> Glass:
    is_down = window.instrument.reads_down
    has_head = window.starts if is_down else window.ends
    has_foot = window.ends if is_down else window.starts
    foot = _FOOT
    if window.instrument.kind is Kind.CYLINDER:
        foot = ends_of(window.instrument)[0] * _PITCH
    return Glass(
        kind=window.instrument.kind,
        x=_WHOLE_X if window.starts and window.ends else _PART_X,
        roof=window.top - (_HEAD if has_head else BREAK),
        floor=window.bottom + (foot if has_foot else BREAK),
        scale=1,
        has_head=has_head,
        has_foot=has_foot,
    )


def _draw_parts(window: Window, glass: Glass, divisions: float) -> tuple[str, ...]:
    kind, y = glass.kind, window.height(divisions)
    tube = Tube(glass.left, glass.right, climb=4, size=11, stroke=0.9)
    return (
        fill_foot(glass),
        fill_tube(tube, glass, y),
        draw_glass(glass),
        draw_lines(tube, kind, window.lines()),
    )
