"""
How close an answer must come, in words that can be printed before it is given.

The figure is that of a student in the middle of every range, so it tells nothing
of anybody's own values.
"""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.judge.own import Own, own_of, rounded
from workbook.labfile.instrument import Kind
from workbook.measure.rounding import round_up, write

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case

#: A band narrower than this share is not worth a sentence [%].
_WORTH_SAYING = Decimal("0.01")

_READ = (
    "Accepted: within {allowance} of what the scale shows, to the digit it supports."
)
_COPIED = "Accepted: the display, every digit of it."
_FOLLOWS = (
    "Accepted: what follows from your own values{band}, and rounding to the last digit "
    "that you write."
)
_BAND = ", within {share} %"


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
    for quantity in middle.graph.quantities.values():
        own = own_of(middle, quantity, owns)
        owns[quantity.name] = own
        if quantity.origin is Origin.DERIVED:
            said[quantity.name] = _say_band(own)
            owns[quantity.name] = rounded(own)
        elif quantity.origin is Origin.READING:
            said[quantity.name] = _say_reading(quantity)
    asks = middle.graph.lab.public.asks
    return {ask.id: said[ask.of] for ask in asks if ask.of is not None}


def _say_reading(quantity: Quantity) -> str:
    instrument = quantity.instrument
    if instrument is None or instrument.kind is Kind.BALANCE:
        return _COPIED
    allowance = f"{write(instrument.allowance)} {instrument.unit.symbol}"
    return _READ.format(allowance=allowance)


def _say_band(own: Own) -> str:
    half = (own.span.high - own.span.low) / 2
    share = Decimal(repr(100 * half / abs(own.value))) if own.value else Decimal(0)
    if share < _WORTH_SAYING:
        return _FOLLOWS.format(band="")
    return _FOLLOWS.format(band=_BAND.format(share=write(round_up(share, 1))))
