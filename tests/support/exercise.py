"""The labs that ship with the workbook, as tests go through them one by one."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from tests.support.lab import OLIVE_OIL, WEIGHTS
from workbook.draw.sample import grid_of
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph
from workbook.labfile.reader import read_lab
from workbook.measure.units import read_unit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.labfile.half import Lab

EXERCISES = OLIVE_OIL.parent

#: The name of every lab.
LABS = sorted(path.parent.name for path in EXERCISES.glob("*/lab.toml"))


@cache
def find_lab(name: str) -> Lab:
    """Return a lab of the exercises."""
    return read_lab(EXERCISES / name)


@cache
def compile_lab(name: str) -> CompiledGraph:
    """Return the graph of a lab, compiled."""
    return CompiledGraph(build_graph(find_lab(name), WEIGHTS))


def work_out(name: str, taken: Mapping[str, float]) -> dict[str, float]:
    """
    Return what the quantities of a lab come to for one person.

    Parameters
    ----------
    name : str
        The lab.
    taken : mapping of str to float
        What was measured out, each in the unit of its quantity; what is left out has
        the lowest value that can be drawn.

    Returns
    -------
    dict of str to float
        Every quantity, in its own unit.
    """
    compiled = compile_lab(name)
    quantities = compiled.graph.quantities
    drawn = {}
    for key, quantity in quantities.items():
        if quantity.draw is not None:
            grid = grid_of(quantity)
            lowest = grid.first * 10.0**grid.place
            value = quantity.to_base(np.asarray([taken.get(key, lowest)]))
            drawn[key] = np.asarray(value)
    solved = compiled.solve(drawn)
    return {
        key: float(np.ravel(quantities[key].from_base(column))[0])
        for key, column in solved.items()
    }


def in_unit(name: str, quantity: str, value: float, unit: str) -> float:
    """Return a value of a lab's quantity in another unit of its kind."""
    own = compile_lab(name).graph.quantities[quantity]
    return float(own.to_base(value)) / float(read_unit(unit).factor)
