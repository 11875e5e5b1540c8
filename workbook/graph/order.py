"""The order in which quantities can be worked out."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING

from workbook.errors import AuthorError
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.labfile.half import Lab
    from workbook.relation.tree import Node


def order(relations: Mapping[str, Node], lab: Lab) -> tuple[str, ...]:
    """
    Return the names of all quantities, each after those that it follows from.

    Parameters
    ----------
    relations : mapping of str to Node
        What gives each quantity that is not given outright.
    lab : Lab
        For the file and line of a finding.

    Returns
    -------
    tuple of str
        Every name that has a relation or stands in one, the same order each time.

    Raises
    ------
    AuthorError
        If quantities follow from each other in a circle; it is spelled out.
    """
    sorter = TopologicalSorter(
        {name: sorted(set(names(relation))) for name, relation in relations.items()}
    )
    try:
        return tuple(sorter.static_order())
    except CycleError as error:
        circle = list(error.args[1])
        line = lab.located.line(("quantities", circle[0]))
        chain = " -> ".join(repr(name) for name in circle)
        finding = (
            f"{lab.path}:{line}: quantities follow from each other in a circle: "
            f"{chain}. Give one of them another relation."
        )
        raise AuthorError((finding,)) from error
