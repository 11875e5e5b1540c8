"""What a student wrote in answer to one step."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

import pytest

from tests.front.stage import (
    ALGEBRA,
    CHAIN,
    NUMBER,
    ONE,
    ORDER,
    OWN,
    PLAN,
    READING,
    STREAMS,
    TEXT,
)
from workbook.front.working import result_of, show_working
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Filling,
    Match,
    Matched,
    Noted,
    Ordered,
    Placed,
    Typed,
)

if TYPE_CHECKING:
    from workbook.wire.sheet import Step

HOSTILE = "<script>alert(1)</script>\u202e&\"'"


def test_a_chain_stands_with_its_units_its_factors_and_its_result() -> None:
    chain = Built((Placed("density", turned=False), Placed("wax", turned=True)), "13 g")
    shown = show_working(CHAIN, chain, None)
    assert "<mn>0.911</mn>" in shown
    assert '= <bdi class="typed">13 g</bdi>' in shown
    assert "Factors: density; density of wax, turned over" in shown
    assert "Unit left: g of almond oil times mL of wax per g of wax" in shown


def test_a_factor_that_the_sheet_does_not_offer_is_left_out() -> None:
    shown = show_working(CHAIN, Built((Placed("gone", turned=False),), "13 g"), None)
    assert "gone" not in shown


def test_each_line_of_algebra_is_set_and_the_one_that_stops_is_told() -> None:
    shown = show_working(ALGEBRA, Derived(("3A = 6", "A = 3"), "3 g/mol"), 1)
    lines = shown.split("<li>")[1:]
    assert [line.count("<math") for line in lines] == [1, 1]
    assert ["stops following here" in line for line in lines] == [False, True]
    assert "Known: The oil is C3H5 with 3 acid parts." in shown
    assert "Letters: A: molar mass of the acid part, in g/mol" in shown


def test_a_line_that_can_t_be_read_stands_as_it_was_typed() -> None:
    shown = show_working(ALGEBRA, Derived(("3A == 6",), "3"), None)
    assert '<li><bdi class="typed">3A == 6</bdi></li>' in shown


def test_a_text_stands_with_its_line_ends() -> None:
    shown = show_working(TEXT, Typed("It melted.\nIt set."), None)
    assert '<bdi class="typed">It melted.\nIt set.</bdi>' in shown


@pytest.mark.parametrize(
    ("step", "answer"),
    [
        (READING, Typed(HOSTILE)),
        (NUMBER, Typed(HOSTILE)),
        (CHAIN, Built((), HOSTILE)),
        (ALGEBRA, Derived((HOSTILE, f"{HOSTILE} = 3"), HOSTILE)),
        (ONE, Chosen((HOSTILE,))),
    ],
)
def test_hostile_text_is_escaped(step: Step, answer: Answer) -> None:
    shown = show_working(step, answer, None)
    assert "<script" not in shown
    assert result_of(answer) in {HOSTILE, ""}


def test_an_answer_of_another_kind_is_left_out() -> None:
    assert show_working(CHAIN, Chosen(("oil",)), None) == ""


#: An answer of each kind, to a step of its kind.
ANSWERS: list[tuple[Step, Answer]] = [
    (NUMBER, Typed("12 %")),
    (CHAIN, Built((), "13 g")),
    (ALGEBRA, Derived((), "3 g/mol")),
    (ONE, Chosen(("oil",))),
    (ORDER, Ordered(("weigh",))),
    (STREAMS, Matched((Match("oil", ("drum",)),))),
    (OWN, Noted("45.21 g", "<misread>", "45.12 g")),
    (PLAN, Filled((Filling("oil", "amount", "0.01"),))),
]


def test_every_kind_of_answer_is_tried_here() -> None:
    assert {type(answer) for _, answer in ANSWERS} == set(get_args(Answer))


@pytest.mark.parametrize(("step", "answer"), ANSWERS)
def test_every_kind_of_answer_is_shown_with_its_step_only(
    step: Step, answer: Answer
) -> None:
    assert show_working(step, answer, None) != ""
    if not isinstance(answer, Typed | Noted):
        assert show_working(READING, answer, None) == ""
