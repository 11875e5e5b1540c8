"""
A relation as a function of one student's values, made once and called often.

`compute` walks the tree each time, which is fine for one relation; dozens of mistakes
are tried for each wrong answer. A test holds the two against each other.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from workbook.graph.span import exp10
from workbook.measure.concordance import concordant_mean
from workbook.relation.tree import RATIO, Algebra, Node, Number, evaluate

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph

#: Gives what a relation comes to, from every name that it uses, in base units.
Function: TypeAlias = Callable[[Mapping[str, float]], float]

_CALLS: Mapping[str, Callable[..., float]] = {
    "concordant": concordant_mean,
    "min": min,
    "max": max,
    "exp10": exp10,
    "log10": math.log10,
    "sqrt": math.sqrt,
}


@dataclass(frozen=True, slots=True)
class _Later:
    """Something that is worked out once the values are there."""

    function: Function

    def _join(self, sign: Callable[[float, float], float], other: _Later) -> _Later:
        first, second = self.function, other.function
        return _Later(lambda values: sign(first(values), second(values)))

    def __add__(self, other: _Later) -> _Later:
        return self._join(operator.add, other)

    def __sub__(self, other: _Later) -> _Later:
        return self._join(operator.sub, other)

    def __mul__(self, other: _Later) -> _Later:
        return self._join(operator.mul, other)

    def __truediv__(self, other: _Later) -> _Later:
        return self._join(operator.truediv, other)

    def __pow__(self, exponent: int) -> _Later:
        base = self.function
        return _Later(lambda values: base(values) ** exponent)

    def __neg__(self) -> _Later:
        function = self.function
        return _Later(lambda values: -function(values))


def _constant(value: float) -> _Later:
    return _Later(lambda _: value)


def to_function(graph: Graph, relation: Node) -> Function:
    """
    Return a relation as a function.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        The right-hand side.

    Returns
    -------
    Function
        Of a mapping with every name that the relation uses, in base units; it gives
        NaN where the relation has no value, as after a division by zero.
    """

    def call(name: str, arguments: tuple[_Later | str, ...]) -> _Later:
        if name == RATIO:
            named = map(str, arguments)
            return _constant(float(graph.ratio(*named)))
        function = _CALLS[name]
        parts = [each.function for each in arguments if isinstance(each, _Later)]
        return _Later(lambda values: function(*(part(values) for part in parts)))

    def number(node: Number) -> _Later:
        return _constant(float(node.value))

    def name(text: str) -> _Later:
        return _Later(operator.itemgetter(text))

    whole = evaluate(relation, Algebra(number, name, call)).function

    def solve(values: Mapping[str, float]) -> float:
        try:
            return whole(values)
        except (ZeroDivisionError, OverflowError, ValueError):
            return math.nan

    return solve
