"""
Values for students: from the course key and a name, the same for ever.

A value depends on the key, the lab, its revision, the student, the quantity and
the try, and on nothing else: not on the roster, its order, or the machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.fairness import refuse
from workbook.errors import DrawError
from workbook.graph.quantity import Origin

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.draw.key import CourseKey
    from workbook.graph.compile import Column, CompiledGraph
    from workbook.graph.quantity import Graph, Quantity

#: A hidden value is drawn this many places finer than its bounds are written.
HIDDEN_PLACES = 2

#: Tries before a lab is said to have no fair values for a student.
TRY_LIMIT = 200

_KEY_BITS = 256


@dataclass(frozen=True, slots=True)
class Grid:
    """The values that a quantity can be given, in its own unit."""

    #: The lowest, in units of `place`.
    first: int
    #: How many there are.
    count: int
    #: The power of ten of one step.
    place: int


@dataclass(frozen=True, slots=True, eq=False)
class ClassDraw:
    """The values of every student of a class, in base units."""

    students: tuple[str, ...]
    #: By quantity, a column with one for each student.
    values: dict[str, Column]
    #: How many draws each student needed until one was fair.
    tries: tuple[int, ...]

    def of(self, index: int) -> dict[str, float]:
        """
        Return the values of one student.

        Parameters
        ----------
        index : int
            The student's place in `students`.

        Returns
        -------
        dict of str to float
            By quantity, constants included, in base units [g, cm, mol, s, K, %].
        """
        return {
            name: float(column if column.ndim == 0 else column[index])
            for name, column in self.values.items()
        }


def grid_of(quantity: Quantity) -> Grid:
    """
    Return the values that a quantity can be given.

    Parameters
    ----------
    quantity : Quantity
        One that is drawn.

    Returns
    -------
    Grid
        At the resolution of its instrument, or of its written bounds.
    """
    draw = quantity.draw
    if draw is None:
        msg = f"{quantity.name!r} is not drawn."
        raise ValueError(msg)
    place = draw.place
    if quantity.instrument is not None:
        place = quantity.instrument.place
    elif quantity.origin is Origin.HIDDEN:
        place -= HIDDEN_PLACES
    steps = draw.steps(quantity.unit, place)
    return Grid(steps.start, len(steps), place)


def draw_class(
    compiled: CompiledGraph, key: CourseKey, students: Sequence[str]
) -> ClassDraw:
    """
    Return the values of every student.

    Parameters
    ----------
    compiled : CompiledGraph
        The lab.
    key : CourseKey
        The course's secret.
    students : sequence of str
        Their ids; order and company change nobody's values.

    Returns
    -------
    ClassDraw
        Columns of shape (n_students,), in base units.

    Raises
    ------
    DrawError
        If a student gets no fair values.
    """
    graph = compiled.graph
    waiting = np.arange(len(students))
    tries = np.zeros(len(students), dtype=int)
    kept: dict[str, Column] = {}
    reason = ""
    for attempt in range(TRY_LIMIT):
        names = [students[index] for index in waiting.tolist()]
        solved = solve_try(compiled, key, names, attempt)
        reasons = refuse(graph, solved, len(names))
        fair = np.array([not reason for reason in reasons], dtype=bool)
        _keep(kept, solved, waiting[fair], fair, len(students))
        tries[waiting] += 1
        waiting = waiting[~fair]
        if not waiting.size:
            return ClassDraw(tuple(students), kept, tuple(tries.tolist()))
        reason = next(filter(None, reasons))
    first = students[int(waiting[0])]
    raise DrawError(graph.lab.public.name, first, TRY_LIMIT, reason)


def solve_try(
    compiled: CompiledGraph, key: CourseKey, students: Sequence[str], attempt: int
) -> dict[str, Column]:
    """
    Return the values of one try for every student, fair or not.

    Parameters
    ----------
    compiled : CompiledGraph
        The lab.
    key : CourseKey
        The course's secret.
    students : sequence of str
        Their ids.
    attempt : int
        Which try, from 0 [-].

    Returns
    -------
    dict of str to array, (n_students,)
        Every quantity, in base units; a constant is a scalar of shape ().
    """
    graph = compiled.graph
    drawn = [q for q in graph.quantities.values() if q.draw is not None]
    columns = {q.name: _column(graph, key, q, students, attempt) for q in drawn}
    return compiled.solve(columns)


def _column(
    graph: Graph,
    key: CourseKey,
    quantity: Quantity,
    students: Sequence[str],
    attempt: int,
) -> Column:
    public, grid = graph.lab.public, grid_of(quantity)
    revision, count = str(public.revision), str(attempt)
    steps = [
        key.number(public.name, revision, student, quantity.name, count) * grid.count
        >> _KEY_BITS
        for student in students
    ]
    whole = np.array(steps, dtype=np.int64) + grid.first
    # A division rounds once, so 127 tenths are 12.7 and not 12.700000000000001.
    value = whole / 10.0**-grid.place if grid.place < 0 else whole * 10.0**grid.place
    return quantity.to_base(value.astype(np.float64))


def _keep(
    kept: dict[str, Column],
    solved: dict[str, Column],
    where: np.ndarray,
    fair: np.ndarray,
    count: int,
) -> None:
    for name, column in solved.items():
        if column.ndim == 0:
            kept[name] = column
            continue
        if name not in kept:
            kept[name] = np.full(count, np.nan)
        kept[name][where] = column[fair]
