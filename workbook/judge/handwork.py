"""
A relation worked out by somebody who rounds every intermediate before going on.

An honest band must hold all habits at once, and is wide for it. A mistake is looked for
more narrowly: in what it gives unrounded, and in what it gives by this habit.
"""

from __future__ import annotations

import math
import operator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.measure.concordance import concordant_mean
from workbook.relation.tree import RATIO, Algebra, Node, Number, evaluate

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.graph.quantity import Graph

_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "concordant": concordant_mean,
    "min": min,
    "max": max,
    "log10": math.log10,
    "sqrt": math.sqrt,
}


@dataclass(frozen=True, slots=True)
class _Noted:
    """A value as it is noted down, with so many figures."""

    value: float
    figures: int

    def _join(self, sign: Callable[[float, float], float], other: _Noted) -> _Noted:
        return _note(sign(self.value, other.value), self.figures)

    def __add__(self, other: _Noted) -> _Noted:
        return self._join(operator.add, other)

    def __sub__(self, other: _Noted) -> _Noted:
        return self._join(operator.sub, other)

    def __mul__(self, other: _Noted) -> _Noted:
        return self._join(operator.mul, other)

    def __truediv__(self, other: _Noted) -> _Noted:
        return self._join(operator.truediv, other)

    def __pow__(self, exponent: int) -> _Noted:
        return _note(self.value**exponent, self.figures)

    def __neg__(self) -> _Noted:
        return _Noted(-self.value, self.figures)


def _note(value: float, figures: int) -> _Noted:
    return _Noted(float(f"{value:.{figures - 1}e}"), figures)


def work_by_hand(
    graph: Graph, relation: Node, values: Mapping[str, float], figures: int
) -> float:
    """
    Return what a relation comes to when every intermediate is rounded.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        The right-hand side.
    values : mapping of str to float
        Every name that the relation uses, not rounded [g, cm, mol, s, K, %].
    figures : int
        How many figures are noted down each time [-].

    Returns
    -------
    float
        In base units [g, cm, mol, s, K, %]; NaN where it has no value.
    """

    def call(name: str, arguments: tuple[_Noted | str, ...]) -> _Noted:
        if name == RATIO:
            named = map(str, arguments)
            return _Noted(float(graph.ratio(*named)), figures)
        given = (each.value for each in arguments if isinstance(each, _Noted))
        return _note(_FUNCTIONS[name](*given), figures)

    def number(node: Number) -> _Noted:
        return _Noted(float(node.value), figures)

    def name(text: str) -> _Noted:
        return _Noted(values[text], figures)

    try:
        return evaluate(relation, Algebra(number, name, call)).value
    except (ZeroDivisionError, OverflowError, ValueError):
        return math.nan
