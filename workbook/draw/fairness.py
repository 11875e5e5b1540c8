"""
Draws that no student should get: each rule refuses some, with its reason.

A refused draw moves to the next try, so that fairness costs no student anything.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.probe import PROBES, probe_class
from workbook.draw.visibility import see_slips
from workbook.graph.quantity import Origin
from workbook.measure.units import convert

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from workbook.graph.compile import Column
    from workbook.graph.quantity import Graph
    from workbook.relation.tree import Node

#: Two reagents nearer to each other than this leave it to chance which runs out
#: first [-]. Common practice, no source.
NEAR_TIE = 0.05

#: A slip that lands on the right answer for a larger share of students than this is
#: one that a lab can't show; no draw is refused for it, and `check` names it [-].
SELDOM = 0.25

#: A reading nearer to a line than this share of a division is on it [-].
_ON_LINE = 1e-6

#: Graphs whose slips are kept.
_KEPT = 1024


def refuse(graph: Graph, solved: Mapping[str, Column], count: int) -> list[str]:
    """
    Return, for each student, why a draw is unfair, or the empty text.

    Parameters
    ----------
    graph : Graph
        The lab.
    solved : mapping of str to array, (n_students,)
        Every quantity, in base units.
    count : int
        n_students [-].

    Returns
    -------
    list of str
        One for each student; the first reason that was found.
    """
    reasons = [""] * count
    for rule in (_by_value, _on_a_line, _slips_unseen):
        if all(reasons):
            break
        for reason, mask in rule(graph, solved):
            for index in np.flatnonzero(np.broadcast_to(mask, (count,))):
                reasons[index] = reasons[index] or reason
    return reasons


def _by_value(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    yield from _without_value(graph, solved)
    yield from _implausible(graph, solved)
    yield from _off_the_scale(graph, solved)
    yield from _near_ties(graph, solved)


@lru_cache(maxsize=_KEPT)
def never_seen(graph: Graph) -> frozenset[tuple[str, Node]]:
    """
    Return the slips that a lab can't show, whatever is drawn.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    frozenset of (str, Node)
        Step and relation of each slip that lands on the right answer for more than
        a few of a class that is the same at any time.
    """
    solved = probe_class(graph)
    fair = np.ones(PROBES, dtype=bool)
    for _, mask in _by_value(graph, solved):
        fair &= ~mask
    fair = fair if fair.any() else ~fair
    return frozenset(
        (sight.step, sight.slip.relation)
        for sight in see_slips(graph, solved)
        if np.broadcast_to(sight.unseen, fair.shape)[fair].mean() > SELDOM
    )


def _slips_unseen(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    never = never_seen(graph)
    for sight in see_slips(graph, solved):
        if (sight.step, sight.slip.relation) not in never:
            kind = sight.slip.kind.value
            yield f"{sight.step!r} would not show the slip {kind!r}.", sight.unseen


def _on_a_line(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    """Refuse readings on a line, so that everybody judges between two."""
    for quantity in graph.quantities.values():
        instrument = quantity.instrument
        if instrument is None or instrument.has_display or instrument.is_fixed:
            continue
        if quantity.is_own:
            continue  # the student's bench decides
        if instrument.division <= instrument.step:
            continue  # every value lies on a line
        lines = quantity.from_base(solved[quantity.name]) / float(instrument.division)
        near = np.abs(lines - np.round(lines)) < _ON_LINE
        yield f"{quantity.name!r} lies on a line of its scale.", near


def _without_value(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    for name in graph.lab.key.relations:
        yield f"{name!r} has no value.", ~np.isfinite(solved[name])


def _implausible(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    for name, span in graph.lab.key.plausible.items():
        quantity = graph.quantities[name]
        low, high = (
            quantity.to_base(float(convert(bound, span.unit, quantity.unit)))
            for bound in (span.low, span.high)
        )
        outside = (solved[name] < low) | (solved[name] > high)
        yield f"{name!r} is not plausible.", outside


def _off_the_scale(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    for quantity in graph.quantities.values():
        if quantity.origin is not Origin.READING or quantity.instrument is None:
            continue
        ends = (quantity.instrument.lowest, quantity.instrument.capacity)
        low, high = (quantity.to_base(float(end)) for end in ends)
        value = solved[quantity.name]
        yield (
            f"{quantity.name!r} is off the scale of its instrument.",
            (value < low) | (value > high),
        )


def _near_ties(
    graph: Graph, solved: Mapping[str, Column]
) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    for name in graph.lab.key.limiting:
        extents = np.sort(list(find_extents(graph, solved, name).values()), axis=0)
        apart = graph.lab.key.closest.get(name, NEAR_TIE)
        near = extents[1] < extents[0] * (1 + apart)
        yield f"{name!r} is nearly a tie.", near


def find_extents(
    graph: Graph, solved: Mapping[str, Column], step: str
) -> dict[str, Column]:
    """
    Return how far each reagent reaches, for a class.

    Parameters
    ----------
    graph : Graph
        The lab.
    solved : mapping of str to array, (n_students,)
        Every quantity, in base units.
    step : str
        One that asks which reagent runs out first.

    Returns
    -------
    dict of str to array, (n_students,) or ()
        By species [mol of the first one]; the least runs out first.
    """
    amounts = graph.lab.key.limiting[step]
    first = next(iter(amounts))
    equation = graph.equation_of(*amounts)
    columns = [
        solved[amount] / float(equation.ratio(species, first))
        for species, amount in amounts.items()
    ]
    return dict(zip(amounts, np.broadcast_arrays(*columns), strict=True))
