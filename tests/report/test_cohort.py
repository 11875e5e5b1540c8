"""The hand-ins to one lab, side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tests.support.classroom import make_mark, make_step
from workbook.report.cohort import find_pace, form_cohort, line_up
from workbook.report.fact import ABSENT, Fact, find_fact, sum_up

if TYPE_CHECKING:
    from workbook.report.page import Marked

STEPS = ("b", "a", "c", "d")


def take(student: str, **minutes: float) -> Fact:
    """Return what a student answered, each step at its minute."""
    steps = [make_step(step, minutes=at) for step, at in minutes.items()]
    return sum_up(make_mark(student, steps), STEPS, {})


def test_each_hand_in_is_a_row_and_each_step_a_column(marked: list[Marked]) -> None:
    graph = marked[0].case.graph
    facts = [find_fact(each.mark, each.case) for each in marked]
    cohort = form_cohort(graph, facts)
    assert cohort.steps == tuple(ask.id for ask in graph.lab.public.asks)
    for row, fact in zip(cohort.column("dish"), facts, strict=True):
        assert row == fact.steps[cohort.steps.index("dish")]


def test_steps_stand_in_the_order_in_which_they_were_answered() -> None:
    cohort = line_up(STEPS, (), [take("s0", c=0, b=4, a=4), take("s1", d=1)])
    pace = find_pace(cohort)
    named = [[STEPS[place] for place in row] for row in pace.order]
    # By time, then by name; what has no time comes last.
    assert named[0] == ["c", "a", "b", "d"]
    assert named[1][0] == "d"
    assert pace.gaps[0][:2].tolist() == [240.0, 0.0]
    assert np.isnan(pace.gaps[0][2])
    assert np.isnan(pace.gaps[1]).all()
    assert cohort.table["standing"][1].tolist() == [ABSENT, ABSENT, ABSENT, 0]


def test_nobody_is_a_class_too() -> None:
    pace = find_pace(line_up(STEPS, (), []))
    assert pace.gaps.shape == (0, 3)
