"""Right answers to what is the same for every student."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case
from workbook.judge.judge import judge
from workbook.rehearsal.form import answer_form
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph

#: Kinds that have an answer which is right for everybody.
KINDS = ("choice", "matching", "order", "mechanism")


@pytest.mark.parametrize("kind", KINDS)
def test_the_judge_finds_it_right(compiled: CompiledGraph, kind: str) -> None:
    case = make_case(compiled)
    asks = [ask for ask in compiled.graph.lab.public.asks if ask.kind == kind]
    assert asks
    for ask in asks:
        answer = answer_form(compiled.graph, ask)
        if answer is not None:
            assert judge(case, ask.id, {ask.id: answer}).outcome is Outcome.RIGHT


def test_what_rests_on_own_values_or_on_no_key_has_none(
    compiled: CompiledGraph,
) -> None:
    asks = {ask.id: ask for ask in compiled.graph.lab.public.asks}
    kinds = {each.id for each in asks.values() if each.kind in {"prediction", "text"}}
    without = {
        step for step, ask in asks.items() if answer_form(compiled.graph, ask) is None
    }
    assert {"limiting", *kinds} <= without
