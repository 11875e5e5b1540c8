"""One student of the lime lab, with values that were worked out by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tests.support.lab import LIME, make_graph
from workbook.graph.compile import CompiledGraph
from workbook.judge.case import Case, Convention

if TYPE_CHECKING:
    from pathlib import Path

#: What is drawn: grams, and millilitres.
DRAWN = {"planned_lime": 2.00, "planned_vinegar": 40.0, "residue": 3.00}


def make_lime_case(folder: Path, text: str = LIME) -> Case:
    """Return the case of this student."""
    compiled = CompiledGraph(make_graph(folder, text))
    solved = compiled.solve({name: np.array([each]) for name, each in DRAWN.items()})
    values = {name: float(np.ravel(column)[0]) for name, column in solved.items()}
    return Case(compiled.graph, values, Convention())
