"""
A relation worked out with numbers: with floats, or with spans.

One walker serves both; they differ in what a number and a function are.
`compile` makes a faster function of a relation for a whole class, and a test holds
the two against each other.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeVar

from workbook.graph.concordance import concordant_span
from workbook.graph.span import Span, exp10, highest, lowest, mapped
from workbook.measure.concordance import concordant_mean
from workbook.relation.tree import RATIO, Algebra, Node, evaluate

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from fractions import Fraction

    from workbook.graph.quantity import Graph

T = TypeVar("T")

_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "concordant": concordant_mean,
    "min": min,
    "max": max,
    "exp10": exp10,
    "log10": math.log10,
    "sqrt": math.sqrt,
}

_SPAN_FUNCTIONS: Mapping[str, Callable[..., Span]] = {
    "concordant": concordant_span,
    "min": lowest,
    "max": highest,
    "exp10": lambda span: mapped(exp10, span),
    "log10": lambda span: mapped(math.log10, span),
    "sqrt": lambda span: mapped(math.sqrt, span),
}


def _algebra(
    graph: Graph,
    values: Mapping[str, T],
    exact: Callable[[Fraction], T],
    functions: Mapping[str, Callable[..., T]],
) -> Algebra[T]:
    def call(name: str, arguments: tuple[T | str, ...]) -> T:
        if name == RATIO:
            named = map(str, arguments)
            return exact(graph.ratio(*named))
        return functions[name](*arguments)

    return Algebra(lambda node: exact(node.value), values.__getitem__, call)


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
        Every name that the relation uses, in base units [g, cm, mol, s, K, %].

    Returns
    -------
    float
        In base units [g, cm, mol, s, K, %]; NaN where it has no value, as after a
        division by zero.
    """
    try:
        return evaluate(relation, _algebra(graph, values, float, _FUNCTIONS))
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
    return evaluate(relation, _algebra(graph, values, Span.exactly, _SPAN_FUNCTIONS))
