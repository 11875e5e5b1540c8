"""The band of right answers of every step, for a whole class at once."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.bounded import FUNCTIONS, Bounded, magnitude
from workbook.graph.concordance import concordant_column
from workbook.graph.quantity import Origin
from workbook.relation.tree import RATIO, Algebra, Node, evaluate

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.graph.compile import Column
    from workbook.graph.quantity import Graph, Quantity

_NUMBERS: Mapping[str, Callable[..., Column]] = {
    "concordant": concordant_column,
    "min": lambda *given: np.minimum.reduce(np.broadcast_arrays(*given)),
    "max": lambda *given: np.maximum.reduce(np.broadcast_arrays(*given)),
    "exp10": partial(np.power, 10.0),
    "log10": np.log10,
    "sqrt": np.sqrt,
}


def bound_class(graph: Graph, solved: Mapping[str, Column]) -> dict[str, Bounded]:
    """
    Return where the honest value of each quantity can lie, for a class.

    Parameters
    ----------
    graph : Graph
        The lab.
    solved : mapping of str to array, (n_students,)
        Every quantity, in base units.

    Returns
    -------
    dict of str to Bounded
        Every quantity; a derived one is not yet rounded to be typed.
    """
    asked = graph.lab.public.asked
    seen: dict[str, Bounded] = {}
    used: dict[str, Bounded] = {}
    for name, quantity in graph.quantities.items():
        if quantity.origin is Origin.DERIVED and quantity.relation is not None:
            seen[name] = each = _follow(graph, quantity.relation, used)
            # A step is judged from what was answered before, rounded or not.
            start = each.alone() if name in asked else each
            used[name] = start.widened(each.half)
        else:
            seen[name] = used[name] = _stand(quantity, solved[name], name in asked)
    return seen


def _stand(quantity: Quantity, value: Column, is_asked: bool) -> Bounded:  # noqa: FBT001 - a private call with one meaning
    """Return a constant, or what a sheet or an instrument shows."""
    factor = float(quantity.unit.factor)
    half, place = quantity.spread * factor, None
    if quantity.constant is not None:
        place = quantity.constant.place
    elif quantity.instrument is not None:
        place = quantity.instrument.place
        half = 0.0 if is_asked else float(quantity.instrument.allowance) * factor
    elif quantity.draw is not None and quantity.origin is Origin.GIVEN:
        place = quantity.draw.place
    if place is None:
        last = np.asarray(-np.inf)
    else:
        figures = magnitude(quantity.from_base(value)) - place + 1
        last = magnitude(value) - figures + 1
    return Bounded(value - half, value + half, value, last)


def _follow(graph: Graph, relation: Node, used: Mapping[str, Bounded]) -> Bounded:
    def call(name: str, arguments: tuple[Bounded | str, ...]) -> Bounded:
        if name == RATIO:
            named = map(str, arguments)
            return Bounded.exactly(float(graph.ratio(*named)))
        return FUNCTIONS[name](*arguments)

    algebra = Algebra(
        lambda node: Bounded.exactly(float(node.value)), used.__getitem__, call
    )
    return evaluate(relation, algebra)


def compute_column(
    graph: Graph, relation: Node, solved: Mapping[str, Column]
) -> Column:
    """
    Return what a relation comes to, for a class.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        Any relation in names of the graph.
    solved : mapping of str to array, (n_students,)
        Every quantity, in base units.

    Returns
    -------
    array, (n_students,) or ()
        In base units [g, cm, mol, s, K, %]; NaN or infinite where it has no value.
    """

    def call(name: str, arguments: tuple[Column | str, ...]) -> Column:
        if name == RATIO:
            named = map(str, arguments)
            return np.asarray(float(graph.ratio(*named)))
        return _NUMBERS[name](*arguments)

    algebra = Algebra(
        lambda node: np.asarray(float(node.value)), solved.__getitem__, call
    )
    return np.asarray(evaluate(relation, algebra))
