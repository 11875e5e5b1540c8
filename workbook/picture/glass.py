"""
The shapes of glassware above and below a scale.

Each is drawn around the middle of the tube, from where the plain tube ends. A scale
that is too long to be drawn whole ends in a break, as draughtsmen draw it.
"""

from __future__ import annotations

from dataclasses import dataclass

from workbook.labfile.instrument import Kind
from workbook.picture.ink import COLUMN, LIQUID, element, group, number, outline

#: Half the width of the tube.
HALF = {
    Kind.CYLINDER: 35.0,
    Kind.BURETTE: 25.0,
    Kind.GRADUATED: 30.0,
    Kind.THERMOMETER: 30.0,
}

_HEADS = {
    # A rim that is drawn out to a spout.
    Kind.CYLINDER: "M-35 0V-5Q-35-11-45-15H38Q38-10 35-7V0",
    Kind.BURETTE: "M-25 0V-6M25 0V-6M-28-6H28",
    # A shoulder, and the narrower tube that is put to a filler.
    Kind.GRADUATED: "M-30 0Q-30-7-11-11V-24M30 0Q30-7 11-11V-24",
    # A closed end, with the ring that it is hung up by.
    Kind.THERMOMETER: "M-30 0Q-30-20 0-20Q30-20 30 0M-5-20a5 5 0 1 1 10 0",
}

_FEET = {
    # A rounded floor on a wide base.
    Kind.CYLINDER: ("M-35 0q0 6 7 6h56q7 0 7-6M-26 6L-45 12q-7 2-7 8H52q0-6-7-8L26 6"),
    # A taper, a stopcock with its key, and a jet.
    Kind.BURETTE: (
        "M-25 0Q-25 11-7 16V27M25 0Q25 11 7 16V27M-15 27h30v16h-30zM15 35h9"
        " M24 26v18M-7 43V50l4 14h6l4-14V43"
    ),
    # A long taper to a fine tip.
    Kind.GRADUATED: "M-30 0C-30 20-3 22-3 64H3C3 22 30 20 30 0",
    # A stem that narrows to the bulb.
    Kind.THERMOMETER: (
        "M-30 0C-30 11-13 9-13 21V46A13 13 0 0 0 13 46V21C13 9 30 11 30 0"
    ),
}

#: What is filled below the tube, as soon as anything stands in it.
_ROOMS = {
    Kind.CYLINDER: "M-35-1V0q0 6 7 6h56q7 0 7-6v-1z",
    Kind.BURETTE: (
        "M-25-1V0Q-25 11-7 16V27H7V16Q25 11 25 0v-1zM-7 43V50l4 14h6l4-14V43z"
    ),
    Kind.GRADUATED: "M-30-1V0C-30 20-3 22-3 64H3C3 22 30 20 30 0v-1z",
    Kind.THERMOMETER: ("M-2.55-1V17Q-9 19-9 25V46A9 9 0 0 0 9 46V25Q9 19 2.55 17V-1z"),
}

#: How far a foot reaches below the tube.
REACH = {
    Kind.CYLINDER: 20.0,
    Kind.BURETTE: 64.0,
    Kind.GRADUATED: 64.0,
    Kind.THERMOMETER: 59.0,
}

#: A wave across the tube, for a tube of half the width 1.
_WAVE = "c.15-.16.35-.16.5 0s.35.16.5 0 .35-.16.5 0 .35.16.5 0"

#: Tube that is drawn beyond the last line before a break.
BREAK = 11.0


@dataclass(frozen=True, slots=True)
class Glass:
    """A tube, upright."""

    kind: Kind
    #: Its middle.
    x: float
    #: From where to where it is a plain tube.
    roof: float
    floor: float
    #: Of all that is drawn around the tube [-].
    scale: float
    #: Whether it ends there, or is broken off.
    has_head: bool
    has_foot: bool

    @property
    def half(self) -> float:
        """Half its width."""
        return HALF[self.kind] * self.scale

    @property
    def left(self) -> float:
        """Its left wall."""
        return self.x - self.half

    @property
    def right(self) -> float:
        """Its right wall."""
        return self.x + self.half

    @property
    def end(self) -> float:
        """Down to where anything of it is drawn."""
        reach = REACH[self.kind] if self.has_foot else 4
        return self.floor + reach * self.scale


def draw_glass(glass: Glass) -> str:
    """
    Return the outline of a tube and its ends.

    Parameters
    ----------
    glass : Glass
        What it is and where it stands.

    Returns
    -------
    str
        Not filled.
    """
    walls = outline(
        *("M", glass.left, glass.roof, "V", glass.floor),
        *("M", glass.right, glass.roof, "V", glass.floor),
        stroke_width=1.4 if glass.scale == 1 else 1,
    )
    head = _HEADS[glass.kind] if glass.has_head else None
    foot = _FEET[glass.kind] if glass.has_foot else None
    return (
        walls + _draw_end(glass, glass.roof, head) + _draw_end(glass, glass.floor, foot)
    )


def _draw_end(glass: Glass, y: float, shape: str | None) -> str:
    scale = glass.scale if shape is not None else glass.half
    data = f"M-1 0{_WAVE}" if shape is None else shape
    path = element("path", d=data)
    return group(
        "wb-end",
        [path],
        transform=_place(glass.x, y, scale),
        fill="none",
        stroke="currentColor",
        stroke_width=(1.4 if glass.scale == 1 else 1) / scale,
        stroke_linejoin="round",
    )


def fill_foot(glass: Glass) -> str:
    """
    Return what stands below the tube.

    Parameters
    ----------
    glass : Glass
        What it is and where it stands.

    Returns
    -------
    str
        Nothing where the tube is broken off.
    """
    if not glass.has_foot:
        return ""
    fill = COLUMN if glass.kind is Kind.THERMOMETER else LIQUID
    return element(
        "path",
        d=_ROOMS[glass.kind],
        fill=fill,
        transform=_place(glass.x, glass.floor, glass.scale),
    )


def _place(x: float, y: float, scale: float) -> str:
    return f"translate({number(x)} {number(y)}) scale({number(scale)})"
