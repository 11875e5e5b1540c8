"""
A student's own values: what they read and answered, carried on where they did not.

Every quantity has a span in which the student's value can honestly stand. A
constant spreads by the choice of its table, a reading that was not typed by what its
instrument allows, and what follows by rounding each value on the way.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache
from typing import TYPE_CHECKING

from workbook.graph.input import inputs_of
from workbook.graph.quantity import Origin
from workbook.graph.span import Span
from workbook.judge.carried import Carried, carry, exact, half_place
from workbook.measure.figures import Known

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph, Quantity
    from workbook.judge.case import Case
    from workbook.relation.tree import Node

_NO_NUMBER = float("nan")

#: Constants whose spans are kept.
_KEPT = 4096


@dataclass(frozen=True, slots=True)
class Own:
    """Where a student stands with one quantity, in base units."""

    span: Span
    #: The middle of it, unrounded, with the figures that it is good for.
    known: Known
    #: The first of the student's answers that this rests on and that is wrong.
    fault: str | None = None

    @property
    def value(self) -> float:
        """The middle, in base units; NaN where there is no value."""
        return float(self.known.value)

    def rounded(self) -> Own:
        """
        Return where a student stands who may have rounded the value.

        Returns
        -------
        Own
            Half a unit in the last proper place further on both sides.
        """
        return replace(self, span=self.span.widened(half_place(self.known)))


#: Where a student stands with what has no value.
NOWHERE = Own(Span(_NO_NUMBER, _NO_NUMBER), Known(Decimal(_NO_NUMBER), None))


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
        A derived value itself is not rounded yet; what rests on a missing reading of
        the student's own is nowhere.
    """
    if quantity.name in case.missing:
        return NOWHERE
    if quantity.constant is not None:
        return _constant(case.graph, quantity.name)
    if quantity.relation is None or quantity.origin is Origin.READING:
        return _shown(quantity, case.values[quantity.name])
    inputs = {name: owns[name] for name in inputs_of(case.graph, quantity.name)}
    return _follow(case.graph, quantity.relation, inputs)


@lru_cache(maxsize=_KEPT)
def _constant(graph: Graph, name: str) -> Own:
    """Return where everybody stands with a constant."""
    quantity = graph.quantities[name]
    constant = quantity.constant or NOWHERE.known
    value = quantity.to_base(float(constant.value))
    half = quantity.spread * float(quantity.unit.factor)
    return Own(Span.around(value, half), _in_base(quantity, constant))


def _shown(quantity: Quantity, value: float) -> Own:
    """Return where a student stands with what a sheet or an instrument shows."""
    if (instrument := quantity.instrument) is not None:
        allowance = float(instrument.allowance) * float(quantity.unit.factor)
        return as_read(quantity, value, instrument.place, allowance)
    printed = quantity.draw if quantity.origin is Origin.GIVEN else None
    return as_read(quantity, value, printed.place if printed else None)


def _follow(graph: Graph, relation: Node, inputs: Mapping[str, Own]) -> Own:
    fault = next((own.fault for own in inputs.values() if own.fault is not None), None)
    values = {name: Carried(own.span, own.known) for name, own in inputs.items()}
    try:
        carried = carry(graph, relation, values)
    except ArithmeticError:
        return replace(NOWHERE, fault=fault)
    return Own(carried.span, carried.known, fault)


def as_read(
    quantity: Quantity, value: float, place: int | None, allowance: float = 0.0
) -> Own:
    """
    Return where a student stands with a value that was read or printed.

    Parameters
    ----------
    quantity : Quantity
        What it is a value of.
    value : float
        What was read [base unit].
    place : int or None
        The power of ten of its last digit, in the quantity's own unit; None if exact.
    allowance : float
        How far another honest reading may lie from it [base unit].

    Returns
    -------
    Own
        A single point if there is no allowance.
    """
    shown = Decimal(repr(quantity.from_base(value)))
    known = _in_base(quantity, Known(shown, place))
    return Own(Span.around(value, allowance), known)


def _in_base(quantity: Quantity, known: Known) -> Known:
    factor, offset = quantity.unit.factor, quantity.unit.offset
    scaled = known if factor == 1 else known * exact(factor)
    return scaled if offset == 0 else scaled + exact(offset)
