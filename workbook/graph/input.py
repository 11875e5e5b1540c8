"""What each quantity follows from, worked out once for a lab."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.relation.tree import names

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph

#: Quantities whose inputs are kept.
_KEPT = 8192


@lru_cache(maxsize=_KEPT)
def inputs_of(graph: Graph, name: str) -> tuple[str, ...]:
    """
    Return the names that stand in a quantity's relation.

    Parameters
    ----------
    graph : Graph
        The lab.
    name : str
        A quantity.

    Returns
    -------
    tuple of str
        Each once; empty for what follows from nothing.
    """
    relation = graph.quantities[name].relation
    return () if relation is None else names(relation)


@lru_cache(maxsize=_KEPT)
def behind(graph: Graph, name: str) -> tuple[str, ...]:
    """
    Return everything that a student's value of a quantity rests on, however far back.

    Parameters
    ----------
    graph : Graph
        The lab.
    name : str
        A quantity.

    Returns
    -------
    tuple of str
        Each after what it follows from itself; the quantity is the last. A reading
        rests on what is read, and on nothing else.
    """
    found: dict[str, None] = {}
    is_read = graph.quantities[name].origin is Origin.READING
    for each in () if is_read else inputs_of(graph, name):
        found |= dict.fromkeys(behind(graph, each))
    return (*found, name)
