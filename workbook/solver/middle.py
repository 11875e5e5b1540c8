"""A student who stands in the middle of every range: for what is printed beforehand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.sample import grid_of
from workbook.judge.case import Case, Convention

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph


def middle_case(compiled: CompiledGraph, convention: Convention) -> Case:
    """
    Return the case of a student with the middle of every range.

    Parameters
    ----------
    compiled : CompiledGraph
        The lab.
    convention : Convention
        How numbers are read and judged.

    Returns
    -------
    Case
        Nobody's own.
    """
    middle = {}
    for quantity in compiled.graph.quantities.values():
        if quantity.draw is not None:
            grid = grid_of(quantity)
            value = (grid.first + grid.count // 2) * 10.0**grid.place
            middle[quantity.name] = np.array([quantity.to_base(value)])
    solved = compiled.solve(middle)
    values = {name: float(np.ravel(column)[0]) for name, column in solved.items()}
    return Case(compiled.graph, values, convention)
