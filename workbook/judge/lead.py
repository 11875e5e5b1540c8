"""
Where a mistake leads: from a student's values as they stand, or wherever they can lie.

Whoever goes on with what was typed comes out at one number, or at another if they round
on the way. Whoever carried more digits comes out anywhere in a span around it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeAlias

from workbook.graph.compute import compute, compute_span
from workbook.graph.span import Span
from workbook.judge.handwork import work_by_hand
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.graph.quantity import Graph
    from workbook.judge.own import Own
    from workbook.relation.tree import Node

#: Gives where a relation leads with so many figures: graph, relation, figures, owns.
Lead: TypeAlias = "Callable[[Graph, Node, int, Mapping[str, Own]], tuple[Span, ...]]"


def lead_as_typed(
    graph: Graph, relation: Node, _: int, owns: Mapping[str, Own]
) -> tuple[Span, ...]:
    """
    Return where a mistake leads from a student's values as they stand.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        What the student has worked out.
    _ : int
        Figures, which are not rounded to here [-].
    owns : mapping of str to Own
        Where the student stands.

    Returns
    -------
    tuple of Span
        A single point [base unit].
    """
    return (Span.around(compute(graph, relation, _values(relation, owns))),)


def lead_by_hand(
    graph: Graph, relation: Node, figures: int, owns: Mapping[str, Own]
) -> tuple[Span, ...]:
    """
    Return where a mistake leads from values as they stand, if some round on the way.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        What the student has worked out.
    figures : int
        Noted down each time by those who round on the way [-].
    owns : mapping of str to Own
        Where the student stands.

    Returns
    -------
    tuple of Span
        What `lead_as_typed` gives, and a point more [base unit].
    """
    rounded = work_by_hand(graph, relation, _values(relation, owns), figures)
    return (*lead_as_typed(graph, relation, figures, owns), Span.around(rounded))


def lead_anywhere(
    graph: Graph, relation: Node, figures: int, owns: Mapping[str, Own]
) -> tuple[Span, ...]:
    """
    Return where a mistake leads from values that lie anywhere in their spans.

    Parameters
    ----------
    graph : Graph
        For the coefficients of ``ratio``.
    relation : Node
        What the student has worked out.
    figures : int
        Noted down each time by those who round on the way [-].
    owns : mapping of str to Own
        Where the student stands.

    Returns
    -------
    tuple of Span
        In base units; what `lead_by_hand` gives among them.
    """
    spans = {name: owns[name].span for name in names(relation)}
    lows = {name: span.low for name, span in spans.items()}
    highs = {name: span.high for name, span in spans.items()}
    ends = [work_by_hand(graph, relation, each, figures) for each in (lows, highs)]
    return (
        compute_span(graph, relation, spans),
        *map(Span.around, ends),
        *lead_by_hand(graph, relation, figures, owns),
    )


def _values(relation: Node, owns: Mapping[str, Own]) -> dict[str, float]:
    return {name: owns[name].value for name in names(relation)}


#: Each holds what those before it hold.
LEADS: Final[tuple[Lead, ...]] = (lead_as_typed, lead_by_hand, lead_anywhere)
