"""The lime lab with a melting range, and one student of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tests.support.lab import LIME, edit, make_graph
from tests.support.lime import DRAWN
from workbook.graph.compile import CompiledGraph
from workbook.judge.case import Case, Convention

if TYPE_CHECKING:
    from pathlib import Path

_READING = """\
[readings.{name}]
name = "{name}"
instrument = "thermometer, 250 °C"
draw = "{draw}"

"""

_STEP = '[[postlab]]\nkind = "reading"\nof = "{name}"\nasks = "Read it."\n\n'

_RANGE = """\
[[postlab]]
kind = "range"
name = "melting"
of = ["first", "last"]
asks = "Write the melting range."

"""

#: What the thermometer shows [°C].
FIRST, LAST = 131.2, 134.6

#: With both readings, and the range behind them.
MELTING = edit(
    LIME,
    (
        "[quantities.",
        _READING.format(name="first", draw="130.1 .. 132.9 °C")
        + _READING.format(name="last", draw="133.1 .. 135.9 °C")
        + "[quantities.",
    ),
    (
        "[[postlab]]",
        _STEP.format(name="first") + _STEP.format(name="last") + _RANGE + "[[postlab]]",
    ),
)


def make_melting_case(folder: Path) -> Case:
    """Return the case of a student who sees 131.2 and 134.6 °C."""
    compiled = CompiledGraph(make_graph(folder, MELTING))
    drawn = {**DRAWN, "first": FIRST + 273.15, "last": LAST + 273.15}
    solved = compiled.solve({name: np.array([each]) for name, each in drawn.items()})
    values = {name: float(np.ravel(column)[0]) for name, column in solved.items()}
    return Case(compiled.graph, values, Convention())
