"""Values to try relations with: a few students who could have been drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.compute import compute
from workbook.measure.units import convert

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph, Quantity

#: Where in its range the values of each student begin, and by how much the next drawn
#: quantity lies further; chosen so that no two quantities move together [-].
_STARTS = (0.31, 0.52, 0.83)
_STRIDE = 0.381966


def probe(graph: Graph) -> tuple[dict[str, float], ...]:
    """
    Return the values of a few students, for comparing relations.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    tuple of dict of str to float
        Every quantity of each, in base units [g, cm, mol, s, K, %]; readings are
        not rounded.
    """
    return tuple(_solve(graph, start) for start in _STARTS)


def _solve(graph: Graph, start: float) -> dict[str, float]:
    values: dict[str, float] = {}
    for at, (name, quantity) in enumerate(graph.quantities.items()):
        if quantity.constant is not None:
            values[name] = quantity.to_base(float(quantity.constant.value))
        elif quantity.relation is not None:
            values[name] = compute(graph, quantity.relation, values)
        else:
            values[name] = _draw(quantity, (start + at * _STRIDE) % 1)
    return values


def _draw(quantity: Quantity, share: float) -> float:
    """Return the value that lies so far on the way from low to high."""
    if (drawn := quantity.draw) is None:
        msg = f"{quantity.name!r} has no value, no relation and no range."
        raise ValueError(msg)
    low, high = (
        float(convert(end, drawn.unit, quantity.unit))
        for end in (drawn.low, drawn.high)
    )
    return quantity.to_base(low + share * (high - low))
