"""The band of honest answers: how far a typed value may lie from where it should be."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.judge.typed import Typing

#: An answer this many figures short of the proper number can be too coarse to tell.
#: One figure more or less is accepted; common practice, no source.
_COARSE_BY = 2

#: So many figures always tell: half a unit of the third is at most 0.5 %, which is
#: as much as rounding one step moves a value.
_TELLING = 3

#: A value that lies less than so many times as far from the right one as is allowed is
#: too close to it to be explained [-].
_CLOSE = 1.5


def holds(own: Own, typing: Typing, widening: float) -> bool:
    """
    Tell whether an answer follows from where a student stands.

    Parameters
    ----------
    own : Own
        Where the student stands.
    typing : Typing
        The answer, read one way.
    widening : float
        What the author adds on both sides [base unit].

    Returns
    -------
    bool
        Rounding to the last typed place is allowed for; the ends count.
    """
    return own.span.widened(typing.half + widening).holds(typing.value)


def is_coarse(own: Own, typing: Typing) -> bool:
    """
    Tell whether an answer has too few figures to be told from a mistake.

    Parameters
    ----------
    own : Own
        What it was held against.
    typing : Typing
        The answer, read one way.

    Returns
    -------
    bool
        False for three figures, and where the proper value is exact.
    """
    proper = own.known.figures
    if proper is None or typing.figures >= _TELLING:
        return False
    return typing.figures <= proper - _COARSE_BY


def is_close(own: Own, typing: Typing) -> bool:
    """
    Tell whether a wrong answer lies too close to the right one to be explained.

    Parameters
    ----------
    own : Own
        What it was held against.
    typing : Typing
        The answer.

    Returns
    -------
    bool
        True up to half as far again as what is accepted.
    """
    half = (own.span.high - own.span.low) / 2
    extra = (_CLOSE - 1) * half + _CLOSE * typing.half
    return own.span.widened(extra).holds(typing.value)


def widening(case: Case, quantity: Quantity, value: float) -> float:
    """
    Return what the author of a lab adds to a step's band.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        What is asked.
    value : float
        What was typed [base unit].

    Returns
    -------
    float
        On each side [base unit]; a percentage is one of the value, unless the
        quantity is itself a percentage.
    """
    written = case.graph.lab.key.widen.get(quantity.name)
    if written is None or written.unit is None:
        return 0.0
    if written.unit.dimension == quantity.unit.dimension:
        return float(written.in_unit(quantity.unit)) * float(quantity.unit.factor)
    return abs(value) * float(written.value) / 100
