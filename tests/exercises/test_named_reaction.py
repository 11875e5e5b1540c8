"""A ratio that names its reaction, worked out in each of the ways that there are."""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest

from tests.support.exercise import compile_lab
from workbook.draw.band import compute_column
from workbook.graph.compute import compute
from workbook.graph.function import to_function
from workbook.graph.slip import slips_of
from workbook.graph.span import Span
from workbook.graph.symbol import to_symbols
from workbook.judge.carried import Carried, carry
from workbook.judge.handwork import work_by_hand
from workbook.measure.figures import Known
from workbook.relation.reader import read_relation

#: 2 Al + 2 KOH + 4 H2SO4 + 22 H2O -> 2 alum + 3 H2, and 2 KOH + H2SO4 -> K2SO4 + 2 H2O:
#: 0.1 mol of base goes with 0.2 mol of acid in the one, and 0.05 mol in the other.
EXPECTED = [("reaction", 0.2), ("spare_base", 0.05)]


@pytest.mark.parametrize(("reaction", "expected"), EXPECTED)
def test_every_way_of_working_out_takes_the_reaction_that_is_named(
    reaction: str, expected: float
) -> None:
    graph, values = compile_lab("potash-alum").graph, {"base_left": 0.1}
    relation = read_relation(f"base_left * ratio(acid, base, {reaction})")
    start = Carried(Span(0.1, 0.1), Known(Decimal("0.1"), -1))
    found = [
        compute(graph, relation, values),
        to_function(graph, relation)(values),
        float(compute_column(graph, relation, {"base_left": np.array([0.1])})[0]),
        float(to_symbols(graph, relation).subs("base_left", 0.1)),
        carry(graph, relation, {"base_left": start}).span.low,
        work_by_hand(graph, relation, values, 4),
    ]
    assert found == pytest.approx([expected] * len(found))


def test_slips_are_made_of_the_equation_that_is_named() -> None:
    graph = compile_lab("potash-alum").graph
    slips = {
        to_function(graph, slip.relation)({"base_left": 0.1})
        for slip in slips_of(graph, "acid_for_base")
        if slip.kind.value == "ratio_of_another_pair"
    }
    # By water to base, 1 : 1, it would be 0.1 mol; by the other reaction 0.2 mol.
    assert 0.1 in slips
    assert 0.2 not in slips
