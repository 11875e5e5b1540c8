"""A pipette with one ring: it delivers one volume, which is printed on its bulb."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.measure.rounding import write
from workbook.picture import plate
from workbook.picture.filling import draw_meniscus
from workbook.picture.ink import element, group, letter, outline, trace
from workbook.picture.tube import Tube

if TYPE_CHECKING:
    from workbook.labfile.instrument import Instrument

#: The walls, from the mouthpiece to the tip.
_WALLS = (
    "M81 24V190C81 212 52 202 52 232V288C52 318 81 308 81 330V440L88 466H92"
    " L99 440V330C99 308 128 318 128 288V232C128 202 99 212 99 190V24"
)
#: The room below the ring, from the right wall to the left one.
_ROOM = (
    "V190C99 212 128 202 128 232V288C128 318 99 308 99 330V440L92 466H88"
    " L81 440V330C81 308 52 318 52 288V232C52 202 81 212 81 190"
)
_TUBE = Tube(left=81, right=99, climb=3, size=0, stroke=1.2)
_MIDDLE, _RING = 90.0, 112.0

#: What the frame of the close-up takes in, to either side of the ring.
_FRAMED = 12.0


def draw_pipette(instrument: Instrument) -> str:
    """
    Return a pipette, filled to its ring, and a close-up of the ring.

    Parameters
    ----------
    instrument : Instrument
        One with one volume.

    Returns
    -------
    str
        Groups of the classes ``wb-whole`` and ``wb-close``.
    """
    whole = (
        draw_meniscus(_TUBE, _RING, _ROOM),
        outline(_WALLS),
        _draw_ring(_TUBE, _RING),
        _print_on_bulb(instrument),
    )
    ring = _draw_ring(plate.TUBE, plate.MIDDLE)
    frame = plate.draw_frame(_TUBE.left, _TUBE.right, _RING, _FRAMED)
    close = plate.draw_plate(instrument.kind, ring)
    return group("wb-whole", whole) + frame + close


def _draw_ring(tube: Tube, y: float) -> str:
    return element(
        "path",
        class_="wb-long",
        d=trace("M", tube.left, y, "H", tube.right),
        stroke="currentColor",
        stroke_width=tube.stroke,
    )


def _print_on_bulb(instrument: Instrument) -> str:
    unit = instrument.unit.symbol
    capacity = letter(
        f"{write(instrument.capacity)} {unit}", _MIDDLE, 248, font_size=16
    )
    rest = (
        letter(text, _MIDDLE, 266 + 14 * row, font_size=11)
        for row, text in enumerate(("A  20 °C", f"±{instrument.limit} {unit}"))
    )
    return group(
        "wb-print", (capacity, *rest), fill="currentColor", text_anchor="middle"
    )
