"""
Draws that no student should get: each rule refuses some, with its reason.

A refused draw moves to the next try, so that fairness costs no student anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from workbook.graph.quantity import Origin
from workbook.measure.units import convert

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from workbook.graph.compile import Column
    from workbook.graph.quantity import Graph

#: Two reagents nearer to each other than this leave it to chance which runs out
#: first [-]. Common practice, no source.
NEAR_TIE = 0.05


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
    rules = (
        *_without_value(graph, solved),
        *_implausible(graph, solved),
        *_off_the_scale(graph, solved),
        *_near_ties(graph, solved),
    )
    for reason, mask in rules:
        for index in np.flatnonzero(np.broadcast_to(mask, (count,))):
            reasons[index] = reasons[index] or reason
    return reasons


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
    for name, amounts in graph.lab.key.limiting.items():
        first = next(iter(amounts))
        columns = [
            solved[amount] / float(graph.ratio(species, first))
            for species, amount in amounts.items()
        ]
        extents = np.sort(np.stack(np.broadcast_arrays(*columns)), axis=0)
        near = extents[1] < extents[0] * (1 + NEAR_TIE)
        yield f"{name!r} is nearly a tie.", near
