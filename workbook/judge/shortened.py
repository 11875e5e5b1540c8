"""Values that lost digits too soon: rounded on the way, or cut off at the end."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.compute import compute_span
from workbook.graph.slip import SlipKind, sentence_of, step_of
from workbook.graph.span import Span
from workbook.measure.rounding import Ties, round_figures
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.graph.quantity import Graph, Quantity
    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.judge.typed import Typing
    from workbook.relation.tree import Node

#: So many figures are too few to go on with; three are what most data have [-].
_TOO_FEW = (1, 2)


def find_shortened(
    case: Case,
    quantity: Quantity,
    typing: Typing,
    owns: Mapping[str, Own],
) -> dict[str, list[Span]]:
    """
    Return the sentences on digits that were dropped too soon, where that was done.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        What is asked.
    typing : Typing
        The wrong answer.
    owns : mapping of str to Own
        Where the student stands with everything that the value follows from.

    Returns
    -------
    dict of str to list of Span
        For each sentence the values that it explains [base unit]: those of every way
        to round too soon, because nobody knows which it was.
    """
    graph = case.graph
    relation = step_of(graph, quantity.name).relation
    spans = {name: owns[name].span for name in names(relation)}
    right = compute_span(graph, relation, spans)
    found = {}
    if is_cut(right, typing):
        found[sentence_of(graph, SlipKind.CUT_OFF)] = [Span.around(typing.value)]
    ways = (
        compute_span(graph, relation, spans | changed)
        for changed in _rounded(graph, owns, relation)
    )
    early = [span for span in ways if not span.meets(right)]
    if any(span.widened(typing.half).holds(typing.value) for span in early):
        found[sentence_of(graph, SlipKind.ROUNDED_EARLY)] = early
    return {sentence: led for sentence, led in found.items() if sentence}


def is_cut(right: Span, typing: Typing) -> bool:
    """
    Tell whether a value is a right one with its last digits cut off.

    Parameters
    ----------
    right : Span
        Where the right value can lie [base unit].
    typing : Typing
        What was typed.

    Returns
    -------
    bool
        True where the next digit should have rounded it up.
    """
    unit = 2 * typing.half
    if not unit or not (math.isfinite(right.low) and math.isfinite(right.high)):
        return False
    ends = (right.low, right.high)
    cut = (math.copysign(math.floor(abs(end) / unit), end) * unit for end in ends)
    return any(math.isclose(end, typing.value, rel_tol=1e-9) for end in cut)


def _rounded(
    graph: Graph, owns: Mapping[str, Own], relation: Node
) -> Iterator[dict[str, Span]]:
    """Give the values that one has who rounds all, or one of them, to a few figures."""
    inexact = [name for name in names(relation) if owns[name].known.place is not None]
    for figures in _TOO_FEW:
        each = {
            name: _round(owns[name].value, figures)
            for name in inexact
            # Nobody takes a density or a molar mass with a single figure.
            if figures > 1 or graph.quantities[name].constant is None
        }
        if len(each) > 1:
            yield each
        for name, span in each.items():
            yield {name: span}


def _round(value: float, figures: int) -> Span:
    if not math.isfinite(value):
        return Span(math.nan, math.nan)
    return Span.around(float(round_figures(Decimal(repr(value)), figures, Ties.EVEN)))
