"""The gate before the lab: what is missing, judged from the student's answers."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.support.student import answers
from workbook.judge.gate import find_missing
from workbook.wire.answer import Answer, Chosen

if TYPE_CHECKING:
    from workbook.judge.case import Case

GATE = ("lye_statements", "splash", "brine_waste")

SAFE: dict[str, Answer] = {
    "lye_statements": Chosen(("H290", "H314")),
    "splash": Chosen(("rinse",)),
    "brine_waste": Chosen(("neutral",)),
}


def with_gate(case: Case, *gate: str) -> Case:
    """Return a case whose gate has these steps."""
    public = case.graph.lab.public
    prelab = tuple(replace(ask, is_gate=ask.id in gate) for ask in public.prelab)
    lab = replace(case.graph.lab, public=replace(public, prelab=prelab))
    return replace(case, graph=replace(case.graph, lab=lab))


def test_the_demonstration_gates_its_safety_questions(case: Case) -> None:
    assert case.graph.lab.public.gate == GATE
    assert find_missing(case, {}) == GATE
    assert find_missing(case, SAFE) == ()


@pytest.mark.parametrize("step", GATE)
def test_a_wrong_answer_is_missing_and_the_others_are_not(
    case: Case, step: str
) -> None:
    wrong = SAFE | {step: Chosen(("H225",))}
    assert find_missing(case, wrong) == (step,)


def test_answers_after_the_lab_pass_no_gate(case: Case) -> None:
    assert find_missing(case, answers(dish="45.20 g")) == GATE


@pytest.mark.parametrize(
    ("plan", "missing"),
    [
        # 12.0 g / 0.911 g/mL = 13.172 mL, by hand.
        ("13.2 mL", ()),
        # The value with too many figures: nobody is endangered.
        ("13.1723 mL", ()),
        ("10.9 mL", ("planned_oil_volume",)),
        ("13.2", ()),
        ("much", ("planned_oil_volume",)),
    ],
)
def test_a_plan_at_the_gate_must_be_right(
    case: Case, plan: str, missing: tuple[str, ...]
) -> None:
    gated = with_gate(case, "planned_oil_volume")
    assert find_missing(gated, answers(planned_oil_volume=plan)) == missing


def test_what_only_follows_from_a_wrong_plan_does_not_pass(case: Case) -> None:
    gated = with_gate(case, "lye_needed")
    # A hundredth of the amount, and three times that.
    plan = answers(planned_oil_amount="0.000136 mol", lye_needed="0.000407 mol")
    assert find_missing(gated, plan) == ("lye_needed",)
