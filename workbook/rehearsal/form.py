"""Right answers to what asks for no quantity: choices, tables of words, orders."""

from __future__ import annotations

from graphlib import TopologicalSorter
from itertools import pairwise
from typing import TYPE_CHECKING

from workbook.labfile.form import MechanismForm
from workbook.wire.answer import Answer, Chosen, Match, Matched, Ordered

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Ask


def answer_form(graph: Graph, ask: Ask) -> Answer | None:
    """
    Return the right answer to a step that is the same for every student.

    Parameters
    ----------
    graph : Graph
        The lab.
    ask : Ask
        A step that asks for no quantity.

    Returns
    -------
    Answer or None
        None for what rests on a student's own values, and for what has no right
        answer.
    """
    key = graph.lab.key
    if ask.id in key.right:
        return Chosen(key.right[ask.id])
    if ask.id in key.belongs:
        rows = key.belongs[ask.id].items()
        return Matched(tuple(Match(row, options) for row, options in rows))
    if ask.id in key.before:
        return Ordered(_in_order(graph, ask))
    return None


def _in_order(graph: Graph, ask: Ask) -> tuple[str, ...]:
    """Return the cards that belong, in one of the orders that are right."""
    key = graph.lab.key
    is_mechanism = isinstance(ask.form, MechanismForm)
    cards = ask.form.moves if isinstance(ask.form, MechanismForm) else dict(ask.options)
    left_out = key.decoys[ask.id] if is_mechanism else ()
    sorter: TopologicalSorter[str] = TopologicalSorter(
        {card: () for card in cards if card not in left_out}
    )
    for sequence in key.before[ask.id]:
        for first, second in pairwise(sequence):
            sorter.add(second, first)
    return tuple(sorter.static_order())
