"""What stands in a tube: a liquid with its meniscus, or a column in a fine bore."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.instrument import Kind
from workbook.picture.ink import COLUMN, LIQUID, SURFACE, element, trace

if TYPE_CHECKING:
    from workbook.picture.glass import Glass
    from workbook.picture.tube import Tube

#: Where in the tube's width the bore of a thermometer runs, and its width [-].
BORE, BORE_WIDTH = 0.5, 0.085


def draw_meniscus(tube: Tube, y: float, room: str) -> str:
    """
    Return a liquid that wets the glass: its surface is lowest in the middle.

    Parameters
    ----------
    tube : Tube
        What holds it.
    y : float
        Height of the lowest point [-].
    room : str
        The room below, as data of a path that begins at the right wall and comes
        back to the left one.

    Returns
    -------
    str
        Filled; the surface is a path of the class ``wb-surface``.
    """
    # A cubic whose ends are at the wall reaches three quarters of the way to its
    # handles: so far down they have to be for the lowest point to lie at y.
    wall, handle, lean = y - tube.climb, y + tube.climb / 3, tube.width * 0.16
    surface = trace(
        *("M", tube.left, wall, "C", tube.left + lean, handle),
        *(tube.right - lean, handle, tube.right, wall),
    )
    filled = element("path", d=f"{surface}{room}z", fill=LIQUID)
    drawn = element(
        "path",
        class_="wb-surface",
        d=surface,
        fill="none",
        stroke=SURFACE,
        stroke_width=tube.stroke * 1.5,
    )
    return filled + drawn


def draw_column(tube: Tube, y: float, floor: float) -> str:
    """
    Return a column in a fine bore: its end is round, and highest in the middle.

    Parameters
    ----------
    tube : Tube
        What holds it.
    y : float
        Height of the highest point [-].
    floor : float
        Down to where it is drawn [-].

    Returns
    -------
    str
        Filled; its end is a path of the class ``wb-surface``.
    """
    half = tube.width * BORE_WIDTH / 2
    x = tube.left + tube.width * BORE
    shoulder, handle = y + 2 * half, y - 2 * half / 3
    surface = trace(
        *("M", x - half, shoulder, "C", x - half, handle),
        *(x + half, handle, x + half, shoulder),
    )
    filled = element(
        "path", d=f"{surface}{trace('V', floor, 'H', x - half)}z", fill=COLUMN
    )
    return filled + element("path", class_="wb-surface", d=surface, fill=COLUMN)


def fill_tube(tube: Tube, glass: Glass, y: float) -> str:
    """
    Return what stands in a tube, down to where its foot begins.

    Parameters
    ----------
    tube : Tube
        What holds it.
    glass : Glass
        What it is, and where its foot begins.
    y : float
        Height at which it is read [-].

    Returns
    -------
    str
        A column for a thermometer, and else a liquid.
    """
    if glass.kind is Kind.THERMOMETER:
        return draw_column(tube, y, glass.floor)
    return draw_meniscus(tube, y, trace("V", glass.floor, "H", glass.left))
