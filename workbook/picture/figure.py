"""The small figure of a whole instrument beside a part of it: which part is seen."""

from __future__ import annotations

from dataclasses import replace

from workbook.labfile.instrument import Kind
from workbook.picture.filling import fill_tube
from workbook.picture.glass import Glass, draw_glass, fill_foot
from workbook.picture.ink import GUIDE, group, outline
from workbook.picture.scale import Window, ends_of
from workbook.picture.tube import Tube, draw_lines

_X, _TOP, _HEIGHT, _SCALE = 22.0, 56.0, 335.0, 0.3

#: Plain tube above the scale.
_HEAD = 8.0


def draw_figure(window: Window, divisions: float) -> str:
    """
    Return the whole of an instrument, small.

    Parameters
    ----------
    window : Window
        The part of its scale that is drawn large.
    divisions : float
        Where the instrument stands, counted from zero [-].

    Returns
    -------
    str
        A group of the class ``wb-figure``, with a frame around the part.
    """
    whole = _shrink(window)
    glass = Glass(
        kind=window.instrument.kind,
        x=_X,
        roof=_TOP - _HEAD,
        floor=_TOP + _HEIGHT,
        scale=_SCALE,
        has_head=True,
        has_foot=True,
    )
    tube = Tube(glass.left, glass.right, climb=1.5, size=0, stroke=0.7)
    return group(
        "wb-figure",
        (
            fill_foot(glass),
            fill_tube(tube, glass, whole.height(divisions)),
            draw_glass(glass),
            draw_lines(tube, glass.kind, whole.long_lines()),
            _frame(glass, [whole.height(end) for end in (window.first, window.last)]),
        ),
    )


def _shrink(window: Window) -> Window:
    """Return the whole scale, in the height of the figure."""
    low, high = ends_of(window.instrument)
    first = 0 if window.instrument.kind is Kind.CYLINDER else low
    return replace(
        window,
        first=low,
        last=high,
        origin=first if window.instrument.reads_down else high,
        y=_TOP,
        pitch=_HEIGHT / (high - first),
    )


def _frame(glass: Glass, ends: list[float]) -> str:
    left, right = glass.left - 4, glass.right + 4
    return outline(
        *("M", left, min(ends), "H", right, "V", max(ends), "H", left, "z"),
        stroke=GUIDE,
        stroke_width=1.2,
    )
