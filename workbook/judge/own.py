"""
A student's own values: what they read and answered, carried on where they did not.

Every quantity has a span in which the student's value can honestly stand. A
reading stands as it was typed. A constant spreads by the choice of its table. An
earlier answer spreads between what was typed and what was carried unrounded. A
value that was not asked spreads by rounding it to its proper figures.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.compute import compute, compute_known, compute_span
from workbook.graph.quantity import Origin
from workbook.graph.span import Span
from workbook.measure.figures import Known
from workbook.measure.units import PERCENT
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case

#: More than the whole is impossible [%].
_WHOLE = 100.0


@dataclass(frozen=True, slots=True)
class Own:
    """Where a student stands with one quantity, in base units."""

    #: The middle of it.
    value: float
    span: Span
    #: The value with the figures that it is good for.
    known: Known
    #: The first of the student's answers that this rests on and that is wrong.
    fault: str | None = None


def own_of(case: Case, quantity: Quantity, owns: Mapping[str, Own]) -> Own:
    """
    Return where a student stands with a quantity before they answer it.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        One whose inputs are all in *owns*.
    owns : mapping of str to Own
        Where the student stands with everything earlier.

    Returns
    -------
    Own
        A derived value is not yet widened by rounding: `rounded` does that.
    """
    if quantity.constant is not None:
        return _constant(quantity, quantity.constant)
    if quantity.relation is None or quantity.origin is Origin.READING:
        return as_read(quantity, case.values[quantity.name], _place(quantity))
    inputs = names(quantity.relation)
    value = compute(
        case.graph, quantity.relation, {name: owns[name].value for name in inputs}
    )
    span = compute_span(
        case.graph, quantity.relation, {name: owns[name].span for name in inputs}
    )
    faults = [owns[name].fault for name in inputs if owns[name].fault is not None]
    known = _known(case, quantity, owns, value)
    return Own(value, span, known, faults[0] if faults else None)


def _constant(quantity: Quantity, constant: Known) -> Own:
    value = quantity.to_base(float(constant.value))
    half = quantity.spread * float(quantity.unit.factor)
    return Own(value, Span.around(value, half), _in_base(quantity, constant))


def _place(quantity: Quantity) -> int | None:
    if quantity.instrument is not None:
        return quantity.instrument.place
    if quantity.draw is not None and quantity.origin is Origin.GIVEN:
        return quantity.draw.place
    return None


def as_read(quantity: Quantity, value: float, place: int | None) -> Own:
    """
    Return where a student stands with a value that was read or printed.

    Parameters
    ----------
    quantity : Quantity
        What it is a value of.
    value : float
        In base units.
    place : int or None
        The power of ten of its last digit, in the quantity's own unit.

    Returns
    -------
    Own
        A single point: nothing about it is unsettled.
    """
    shown = Decimal(repr(quantity.from_base(value)))
    if place is not None:
        shown = shown.quantize(Decimal(1).scaleb(place))
    return Own(value, Span.around(value), _in_base(quantity, Known(shown, place)))


def _in_base(quantity: Quantity, known: Known) -> Known:
    factor = quantity.unit.factor
    exact = Known(Decimal(factor.numerator), None) / Known(
        Decimal(factor.denominator), None
    )
    return known * exact if factor != 1 else known


def _known(
    case: Case, quantity: Quantity, owns: Mapping[str, Own], value: float
) -> Known:
    relation = quantity.relation
    if relation is None or not math.isfinite(value):
        return Known(Decimal(0), None)
    try:
        inputs = {name: owns[name].known for name in names(relation)}
        return compute_known(case.graph, relation, inputs)
    except ArithmeticError:
        return Known(Decimal(0), None)


def rounded(own: Own) -> Own:
    """
    Return where a student stands who may have rounded a value to its figures.

    Parameters
    ----------
    own : Own
        Of a derived quantity that is not answered.

    Returns
    -------
    Own
        Its span reaches half a unit further in the last proper place.
    """
    if own.known.place is None:
        return own
    return replace(own, span=own.span.widened(0.5 * 10.0**own.known.place))


def answered(own: Own, value: float, half: float) -> Own:
    """
    Return where a student stands after an answer whose value holds.

    Parameters
    ----------
    own : Own
        What the answer was held against.
    value : float
        What was typed, in base units.
    half : float
        Half a unit in the last place that was typed, in base units.

    Returns
    -------
    Own
        From what was typed to what may have been carried unrounded.
    """
    low, high = max(own.span.low, value - half), min(own.span.high, value + half)
    span = (
        Span(min(low, value), max(high, value)) if low <= high else Span(value, value)
    )
    return Own(value, span, _moved(own.known, value), own.fault)


def mistaken(own: Own, name: str, value: float, half: float) -> Own:
    """
    Return where a student stands after an answer that is wrong.

    Parameters
    ----------
    own : Own
        What the answer was held against.
    name : str
        The quantity that was answered.
    value : float
        What was typed, in base units.
    half : float
        Half a unit in the last place that was typed, in base units.

    Returns
    -------
    Own
        The student goes on from there; the fault is remembered.
    """
    known = _moved(own.known, value)
    return Own(value, Span.around(value, half), known, own.fault or name)


def _moved(known: Known, value: float) -> Known:
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
        What was typed, in base units.
    true : float
        The true value, in base units.

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
