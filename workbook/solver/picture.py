"""What a student sees of an instrument: the sentence and the picture of a reading."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.picture.picture import draw_picture
from workbook.picture.words import say

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Sight:
    """A reading as it is seen."""

    #: In words, as hard to read as the picture; a display shows its digits.
    words: str
    #: An SVG.
    picture: str


def see(quantity: Quantity, value: float) -> Sight:
    """
    Return what the instrument of a reading shows.

    Parameters
    ----------
    quantity : Quantity
        A reading.
    value : float
        Its true value [base unit].

    Returns
    -------
    Sight
        In which the value is written nowhere, unless on a display.

    Raises
    ------
    ValueError
        If the quantity has no instrument.
    MatterError
        If the value lies off the scale of its instrument.
    """
    instrument = quantity.instrument
    if instrument is None:
        msg = f"{quantity.name!r} is not read off an instrument."
        raise ValueError(msg)
    shown = Decimal(repr(quantity.from_base(value))).quantize(instrument.step)
    picture = draw_picture(instrument, shown, quantity.name)
    return Sight(say(instrument, shown), picture)
