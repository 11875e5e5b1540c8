"""
How close an answer must come, in words that can be printed before it is given.

The share is that of a student in the middle of every range, so it tells nothing of
anybody's own values.
"""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.graph.span import Span
from workbook.judge.carried import half_place
from workbook.judge.own import Own, own_of
from workbook.measure.rounding import Ties, round_figures, write

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.labfile.instrument import Instrument

#: A band narrower than this share is not worth a sentence [%].
_WORTH_SAYING = Decimal("0.01")

_READ = (
    "Accepted: within {allowance} of what the scale shows, to the digit it supports."
)
_COPIED = "Accepted: the display, every digit of it."
_DELIVERED = "Accepted: the one volume, to the last digit of its limit of error."
_OWN = (
    "Accepted: every digit of your own instrument, to {step} {unit}, between {low} and "
    "{high} {unit}. It is typed once; later only a reason changes it."
)
_FOLLOWS = (
    "Accepted: what follows from your own values, rounded to the last digit that you "
    "write{band}."
)
_BAND = (
    ", and about {share} % to either side for rounding on the way and for another "
    "table of atomic weights"
)
_WIDENED = " The author of this lab allows {widen} more."


def say_allowances(middle: Case) -> dict[str, str]:
    """
    Return what is accepted for each step.

    Parameters
    ----------
    middle : Case
        A student with the middle of every range.

    Returns
    -------
    dict of str to str
        By step; choices have none.
    """
    owns: dict[str, Own] = {}
    said: dict[str, str] = {}
    asks = [ask for ask in middle.graph.lab.public.asks if ask.of is not None]
    asked = middle.graph.lab.public.asked
    for quantity in middle.graph.quantities.values():
        own = own_of(middle, quantity, owns)
        if quantity.origin is Origin.DERIVED:
            said[quantity.name] = _say_band(own)
            own = _answered(own) if quantity.name in asked else own.rounded()
        elif quantity.origin is Origin.READING:
            said[quantity.name] = _say_reading(quantity)
            own = _point(own)
        owns[quantity.name] = own
    return {
        ask.id: said[ask.of] + _say_widening(middle, ask.id) for ask in asks if ask.of
    }


def _point(own: Own) -> Own:
    """Go on from a reading that was typed."""
    return Own(Span.around(own.value), own.known)


def _answered(own: Own) -> Own:
    """Go on from an answer with its proper figures, or from what was not rounded."""
    half = half_place(own.known)
    typed = float(own.known.round(Ties.EVEN))
    return Own(
        Span(min(typed, own.value), max(typed, own.value)).widened(half / 10), own.known
    )


def _say_reading(quantity: Quantity) -> str:
    instrument = quantity.instrument
    if quantity.is_own and instrument is not None:
        return _say_own(quantity, instrument)
    if instrument is None or instrument.has_display:
        return _COPIED
    if instrument.is_fixed:
        return _DELIVERED
    allowance = f"{write(instrument.allowance)} {instrument.unit.symbol}"
    return _READ.format(allowance=allowance)


def _say_own(quantity: Quantity, instrument: Instrument) -> str:
    unit, draw = instrument.unit.symbol, quantity.draw
    low, high = (write(draw.low), write(draw.high)) if draw else ("", "")
    return _OWN.format(low=low, high=high, step=write(instrument.step), unit=unit)


def _say_band(own: Own) -> str:
    half = (own.span.high - own.span.low) / 2
    share = Decimal(repr(100 * half / abs(own.value))) if own.value else Decimal(0)
    if share < _WORTH_SAYING:
        return _FOLLOWS.format(band="")
    printed = write(round_figures(share, 1, Ties.EVEN))
    return _FOLLOWS.format(band=_BAND.format(share=printed))


def _say_widening(case: Case, step: str) -> str:
    written = case.graph.lab.key.widen.get(step)
    return "" if written is None else _WIDENED.format(widen=written.text)
