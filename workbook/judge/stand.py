"""Where a student stands after an answer: what their later steps may follow from."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.span import Span
from workbook.judge.own import Own
from workbook.judge.typed import coarsest
from workbook.measure.figures import Known
from workbook.measure.units import PERCENT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.graph.quantity import Quantity
    from workbook.judge.typed import Typing

#: More than the whole is impossible [%].
_WHOLE = 100.0

#: A student who keeps one figure more than they type may be this share of half a unit
#: beside the unrounded value [-].
_GUARD = 0.1


def answered(held: Sequence[Own], typing: Typing) -> Own:
    """
    Return where a student stands after an answer whose value holds.

    Parameters
    ----------
    held : sequence of Own
        What the answer agrees with, at least one.
    typing : Typing
        The answer.

    Returns
    -------
    Own
        From what was typed to what may have been carried unrounded.
    """
    typed = Span.around(typing.value, typing.half)
    ends = [typing.value]
    for own in held:
        carried = own.span.widened(_GUARD * typing.half)
        if carried.meets(typed):
            low, high = max(carried.low, typed.low), min(carried.high, typed.high)
            ends += [low, high]
    first = held[0]
    span = typed if len(ends) == 1 else Span(min(ends), max(ends))
    return Own(span, _moved(first.known, typing.value), first.fault)


def mistaken(own: Own, name: str, typing: Typing) -> Own:
    """
    Return where a student stands after an answer that is wrong.

    Parameters
    ----------
    own : Own
        What the answer was held against.
    name : str
        The quantity that was answered.
    typing : Typing
        The answer.

    Returns
    -------
    Own
        The student goes on from there; the fault is remembered.
    """
    span = Span.around(typing.value, coarsest(typing.ways).half)
    return Own(span, _moved(own.known, typing.value), own.fault or name)


def _moved(known: Known, value: float) -> Known:
    """Return a value that is good for as many figures as another."""
    figures = known.figures
    number = Decimal(repr(value))
    if figures is None or not number:
        return Known(number, known.place)
    return Known(number, number.adjusted() - figures + 1)


def is_possible(quantity: Quantity, value: float, true: float) -> bool:
    """
    Tell whether a value could be, so that later steps may follow from it.

    Parameters
    ----------
    quantity : Quantity
        What was answered.
    value : float
        What was typed [base unit].
    true : float
        The true value [base unit].

    Returns
    -------
    bool
        False for another sign than the truth's, for nothing at all, and for more
        than the whole.
    """
    if value * true <= 0:
        return False
    is_percentage = quantity.unit.dimension == PERCENT.dimension
    return not (is_percentage and value > _WHOLE >= true)
