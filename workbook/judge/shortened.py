"""Values that lost digits too soon: rounded on the way, or cut off at the end."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.compute import compute, compute_span
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

#: A value further from what was typed than this share is not looked into closer [-].
_FAR = 0.1


def find_shortened(
    case: Case,
    quantity: Quantity,
    typing: Typing,
    owns: Mapping[str, Own],
) -> Iterator[str]:
    """
    Give the sentences on digits that were dropped too soon, where that was done.

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
    iterator of str
        At most one for each way.
    """
    graph = case.graph
    relation = step_of(graph, quantity.name).relation
    spans = {name: owns[name].span for name in names(relation)}
    right = compute_span(graph, relation, spans)
    if is_cut(right, typing):
        yield sentence_of(graph, SlipKind.CUT_OFF)
    values = {name: owns[name].value for name in spans}
    for changed in _rounded(graph, owns, relation):
        ends = {name: span.low for name, span in changed.items()}
        value = compute(graph, relation, values | ends)
        if not math.isclose(value, typing.value, rel_tol=_FAR):
            continue
        found = compute_span(graph, relation, spans | changed)
        if found.widened(typing.half).holds(typing.value) and not found.meets(right):
            yield sentence_of(graph, SlipKind.ROUNDED_EARLY)
            return


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
