"""Which mistakes a class's values can show: a slip near the right answer is unseen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.band import bound_class, compute_column
from workbook.draw.bounded import magnitude
from workbook.graph.quantity import Origin
from workbook.graph.slip import slips_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from workbook.draw.bounded import Bounded
    from workbook.graph.compile import Column
    from workbook.graph.quantity import Graph
    from workbook.graph.slip import Slip

#: A slip must lie so many times as far from the right answer as the band reaches: who
#: makes it also rounds on the way [-].
CLEARANCE = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class Sight:
    """One slip of one step, seen over a class: columns of shape (n_students,) or ()."""

    step: str
    slip: Slip
    #: Where it leads, in base units.
    value: Column
    #: Half a unit in the last figure that would be typed, in base units.
    half: Column
    #: True where it can't be told from the right answer.
    unseen: NDArray[np.bool_]


def asked_quantities(graph: Graph) -> Iterator[str]:
    """
    Give what a lab asks to be worked out.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    iterator of str
        Quantities, each after those that it follows from; readings are left out.
    """
    asked = graph.lab.public.asked
    for name, quantity in graph.quantities.items():
        if name in asked and quantity.origin is Origin.DERIVED:
            yield name


def see_slips(graph: Graph, solved: Mapping[str, Column]) -> list[Sight]:
    """
    Return every slip of every step, as a class's values show it.

    Parameters
    ----------
    graph : Graph
        The lab.
    solved : mapping of str to array, (n_students,)
        Every quantity, in base units.

    Returns
    -------
    list of Sight
        In the order of working out.
    """
    with np.errstate(all="ignore"):
        right = bound_class(graph, solved)
        return [
            sight
            for name in asked_quantities(graph)
            for sight in _see_step(graph, solved, name, right[name])
        ]


def _see_step(
    graph: Graph, solved: Mapping[str, Column], name: str, right: Bounded
) -> Iterator[Sight]:
    low = right.value - CLEARANCE * (right.value - right.low + right.half)
    high = right.value + CLEARANCE * (right.high - right.value + right.half)
    for slip in slips_of(graph, name):
        value = compute_column(graph, slip.relation, solved)
        half = np.asarray(0.5 * 10.0 ** (magnitude(value) - right.figures + 1))
        yield Sight(name, slip, value, half, (value >= low) & (value <= high))


def find_twins(sights: list[Sight]) -> list[NDArray[np.bool_]]:
    """
    Return where a slip leads to the value of another with a different sentence.

    Parameters
    ----------
    sights : list of Sight
        Of one class.

    Returns
    -------
    list of array, (n_students,) or ()
        One for each sight: True where a typed number can't tell the two apart, so
        that neither may be named.
    """
    twins = []
    for one in sights:
        met = np.zeros(one.value.shape, dtype=bool)
        for other in _others(one, sights):
            met = met | _meet(one, other)
        twins.append(met)
    return twins


def _others(one: Sight, sights: list[Sight]) -> Iterator[Sight]:
    for other in sights:
        if other.step == one.step and other.slip.sentence != one.slip.sentence:
            yield other


def _meet(one: Sight, other: Sight) -> NDArray[np.bool_]:
    return np.abs(one.value - other.value) <= one.half + other.half
