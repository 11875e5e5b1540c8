"""The band of a class is that which the judge gives each student."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.support.student import DRAWN, RIGHT, make_case
from workbook.draw.band import bound_class, compute_column
from workbook.graph.compute import compute
from workbook.graph.quantity import Origin
from workbook.judge.judge import SheetJudge
from workbook.relation.reader import read_relation
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph


def test_a_class_is_bounded_as_the_judge_bounds_a_student(
    compiled: CompiledGraph,
) -> None:
    """The judge is a second method: student by student, in decimal arithmetic."""
    case = make_case(compiled)
    solved = compiled.solve({name: np.array([each]) for name, each in DRAWN.items()})
    bounds = bound_class(compiled.graph, solved)
    readings = {name: Typed(text) for name, text in RIGHT.items() if "oil_v" in name}
    seen = SheetJudge(case, readings)
    # These rest on readings and constants only.
    for name in ("planned_oil_volume", "planned_oil_amount", "oil_mass"):
        span = seen.stands(name)[0].span
        low, high = (float(np.ravel(end)[0]) for end in _ends(bounds, name))
        assert (low, high) == pytest.approx((span.low, span.high), rel=1e-12)
        assert int(np.ravel(bounds[name].place)[0]) == seen.stands(name)[0].known.place


def _ends(bounds: object, name: str) -> tuple[np.ndarray, np.ndarray]:
    each = bounds[name]  # type: ignore[index]  # a mapping of bounds
    return each.low, each.high


def test_every_true_value_lies_in_its_band(compiled: CompiledGraph) -> None:
    solved = compiled.solve({name: np.array([each]) for name, each in DRAWN.items()})
    for name, each in bound_class(compiled.graph, solved).items():
        if compiled.graph.quantities[name].origin is Origin.DERIVED:
            assert (each.low <= solved[name]).all()
            assert (solved[name] <= each.high).all()


@pytest.mark.parametrize(
    "text",
    [
        "oil_volume * oil.density / oil.molar_mass * ratio(soap, oil)",
        "min(oil_amount, lye_amount / 3) + max(oil_amount, lye_amount)",
        "exp10(-lye_amount) + exp10(2 * oil_amount)",
        "-log10(oil_amount) + sqrt(lye_amount) - oil_amount^2",
    ],
)
def test_a_column_is_what_one_student_has(compiled: CompiledGraph, text: str) -> None:
    drawn = {name: np.array([each, each * 1.01]) for name, each in DRAWN.items()}
    solved, relation = compiled.solve(drawn), read_relation(text)
    column = compute_column(compiled.graph, relation, solved)
    for at in range(2):
        one = {n: float(np.ravel(c)[min(at, c.size - 1)]) for n, c in solved.items()}
        expected = compute(compiled.graph, relation, one)
        assert float(column[at]) == pytest.approx(expected, rel=1e-12)
