"""
A relation worked out over numbers: one value, or a column with one for each student.

The same walker serves both; `compile` makes a faster function of a relation for
a whole class, and a test holds the two against each other.
"""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.span import Span, highest, lowest, mapped
from workbook.measure.figures import Known
from workbook.relation.tree import Algebra, Node, Number, evaluate

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.graph.quantity import Graph

_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "log10": math.log10,
    "sqrt": math.sqrt,
}

_KNOWN_FUNCTIONS: Mapping[str, Callable[..., Known]] = {
    "min": min,
    "max": max,
    "log10": Known.log10,
    "sqrt": Known.sqrt,
}

_SPAN_FUNCTIONS: Mapping[str, Callable[..., Span]] = {
    "min": lowest,
    "max": highest,
    "log10": lambda span: mapped(math.log10, span),
    "sqrt": lambda span: mapped(math.sqrt, span),
}


def compute(graph: Graph, relation: Node, values: Mapping[str, float]) -> float:
    """
    Return what a relation comes to.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        The right-hand side.
    values : mapping of str to float
        Every name that the relation uses, in base units.

    Returns
    -------
    float
        In base units; NaN where it has no value, as after a division by zero.
    """

    def call(name: str, arguments: tuple[float | str, ...]) -> float:
        if name == "ratio":
            of, to = (str(each) for each in arguments)
            return float(graph.ratio(of, to))
        return _FUNCTIONS[name](*arguments)

    def number(node: Number) -> float:
        return float(node.value)

    try:
        return evaluate(relation, Algebra(number, values.__getitem__, call))
    except (ZeroDivisionError, OverflowError, ValueError):
        return math.nan


def compute_span(graph: Graph, relation: Node, values: Mapping[str, Span]) -> Span:
    """
    Return where what a relation comes to can lie.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``; they are exact.
    relation : Node
        The right-hand side.
    values : mapping of str to Span
        Every name that the relation uses, in base units.

    Returns
    -------
    Span
        In base units; NaN where it can have no value.
    """

    def call(name: str, arguments: tuple[Span | str, ...]) -> Span:
        if name == "ratio":
            of, to = (str(each) for each in arguments)
            return Span.around(float(graph.ratio(of, to)))
        return _SPAN_FUNCTIONS[name](*arguments)

    def number(node: Number) -> Span:
        return Span.around(float(node.value))

    return evaluate(relation, Algebra(number, values.__getitem__, call))


def compute_known(graph: Graph, relation: Node, values: Mapping[str, Known]) -> Known:
    """
    Return what a relation comes to, with the figures that it is good for.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``; they are counted, hence exact.
    relation : Node
        The right-hand side.
    values : mapping of str to Known
        Every name that the relation uses, in base units.

    Returns
    -------
    Known
        In base units.

    Raises
    ------
    ArithmeticError
        If it has no value, as after a division by zero.
    """

    def exact(top: int, bottom: int) -> Known:
        return Known(Decimal(top), None) / Known(Decimal(bottom), None)

    def call(name: str, arguments: tuple[Known | str, ...]) -> Known:
        if name == "ratio":
            of, to = (str(each) for each in arguments)
            ratio = graph.ratio(of, to)
            return exact(ratio.numerator, ratio.denominator)
        first, *rest = (each for each in arguments if isinstance(each, Known))
        return _KNOWN_FUNCTIONS[name](first, *rest)

    def number(node: Number) -> Known:
        return exact(node.value.numerator, node.value.denominator)

    return evaluate(relation, Algebra(number, values.__getitem__, call))
