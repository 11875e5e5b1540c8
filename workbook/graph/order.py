"""The order in which quantities can be worked out."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING

from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.relation.tree import Node


def _sorter(relations: Mapping[str, Node]) -> TopologicalSorter[str]:
    return TopologicalSorter(
        {name: sorted(names(relation)) for name, relation in relations.items()}
    )


def find_circle(relations: Mapping[str, Node]) -> tuple[str, ...]:
    """
    Return quantities that follow from each other in a circle.

    Parameters
    ----------
    relations : mapping of str to Node
        What gives each quantity that is not given outright.

    Returns
    -------
    tuple of str
        The first circle, from a name back to itself; empty where there is none.

    Examples
    --------
    >>> from workbook.relation.tree import Name
    >>> find_circle({"a": Name("b"), "b": Name("a")})
    ('a', 'b', 'a')
    """
    try:
        _sorter(relations).prepare()
    except CycleError as error:
        # It is listed from what is used to what uses it.
        return tuple(reversed(error.args[1]))
    return ()


def order(relations: Mapping[str, Node]) -> tuple[str, ...]:
    """
    Return the names of all quantities, each after those that it follows from.

    Parameters
    ----------
    relations : mapping of str to Node
        What gives each quantity that is not given outright; without a circle.

    Returns
    -------
    tuple of str
        Every name that has a relation or stands in one, the same order each time.
    """
    return tuple(_sorter(relations).static_order())
