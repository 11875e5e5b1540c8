"""
A relation worked out the way a student does it: one operation after the other.

Each intermediate may be kept in full, or be rounded to its proper figures before it
is used, so where the result can lie grows with every one of them.
"""

from __future__ import annotations

import math
import operator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from workbook.graph.concordance import concordant_span
from workbook.graph.span import Span, exp10, highest, lowest, mapped
from workbook.measure.concordance import concordant_known
from workbook.measure.figures import Known
from workbook.relation.tree import RATIO, Algebra, Node, Number, evaluate

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from fractions import Fraction

    from workbook.graph.quantity import Graph


@dataclass(frozen=True, slots=True)
class Carried:
    """A value on its way through a relation, in base units."""

    #: Where it can lie.
    span: Span
    #: Its middle, unrounded, with the figures that it is good for.
    known: Known
    #: True for what was worked out, and may be rounded before it is used.
    is_result: bool = False

    def rounded(self) -> Carried:
        """
        Return where the value can lie once it may have been rounded.

        Returns
        -------
        Carried
            Half a unit in the last proper place further on both sides; what is exact,
            or was not worked out here, as it is.
        """
        if not self.is_result:
            return self
        span = self.span.widened(half_place(self.known))
        return replace(self, span=span, is_result=False)

    def __neg__(self) -> Carried:
        return replace(self, span=-self.span, known=-self.known)

    def __add__(self, other: Carried) -> Carried:
        return _joined(operator.add, self, other)

    def __sub__(self, other: Carried) -> Carried:
        return _joined(operator.sub, self, other)

    def __mul__(self, other: Carried) -> Carried:
        return _joined(operator.mul, self, other)

    def __truediv__(self, other: Carried) -> Carried:
        return _joined(operator.truediv, self, other)

    def __pow__(self, exponent: int) -> Carried:
        base = self.rounded()
        return Carried(base.span**exponent, base.known**exponent, is_result=True)


def half_place(known: Known) -> float:
    """
    Return how far rounding to its proper figures can move a value.

    Parameters
    ----------
    known : Known
        In base units.

    Returns
    -------
    float
        Half a unit in the last proper place [base unit]; 0 for an exact value.
    """
    return 0.0 if known.place is None else 0.5 * 10.0**known.place


def _joined(sign: Callable[[Any, Any], Any], left: Carried, right: Carried) -> Carried:
    first, second = left.rounded(), right.rounded()
    span, known = sign(first.span, second.span), sign(first.known, second.known)
    return Carried(span, known, is_result=True)


#: How each function acts on spans, and on values that know their figures.
_FUNCTIONS: Mapping[str, tuple[Callable[..., Span], Callable[..., Known]]] = {
    "concordant": (concordant_span, concordant_known),
    "min": (lowest, min),
    "max": (highest, max),
    "exp10": (lambda span: mapped(exp10, span), Known.exp10),
    "log10": (lambda span: mapped(math.log10, span), Known.log10),
    "sqrt": (lambda span: mapped(math.sqrt, span), Known.sqrt),
}


def carry(graph: Graph, relation: Node, values: Mapping[str, Carried]) -> Carried:
    """
    Return what a relation comes to, rounding on the way allowed for.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``; they are counted, hence exact.
    relation : Node
        The right-hand side.
    values : mapping of str to Carried
        Every name that the relation uses.

    Returns
    -------
    Carried
        The result itself not rounded.

    Raises
    ------
    ArithmeticError
        If it has no value, as after a division by zero.
    """

    def call(name: str, arguments: tuple[Carried | str, ...]) -> Carried:
        if name == RATIO:
            named = map(str, arguments)
            return _exact(graph.ratio(*named))
        on_spans, on_knowns = _FUNCTIONS[name]
        given = [each.rounded() for each in arguments if isinstance(each, Carried)]
        span = on_spans(*(each.span for each in given))
        return Carried(span, on_knowns(*(each.known for each in given)), is_result=True)

    def number(node: Number) -> Carried:
        return _exact(node.value)

    return evaluate(relation, Algebra(number, values.__getitem__, call))


def _exact(value: Fraction) -> Carried:
    return Carried(Span.around(float(value)), exact(value))


def exact(value: Fraction) -> Known:
    """
    Return a counted or defined number, which limits no figures.

    Parameters
    ----------
    value : Fraction
        The number [-].

    Returns
    -------
    Known
        Without a last place.
    """
    top, bottom = (Known(Decimal(whole), None) for whole in value.as_integer_ratio())
    return top / bottom
