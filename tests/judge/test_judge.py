"""Follow-through, live and in bulk: where it carries, and where it stops."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import (
    NOT_RIGHT,
    RIGHT,
    all_right,
    answer,
    answers,
    make_case,
    verdict_on,
)
from workbook.judge.judge import SheetJudge, judge, judge_sheet
from workbook.wire.answer import Answer, Built, Chosen, Placed, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case

# Density upside down, and carried on: 12.5 / 0.911 = 13.7 g, / 885.453 = 0.01549 mol,
# × 3 = 0.04648 mol, × 304.449 = 14.15 g, 940 / 14.15 = 66.4 %.
UPSIDE_DOWN = {
    "oil_mass": "13.7 g",
    "oil_amount": "0.0155 mol",
    "soap_amount": "0.0465 mol",
    "theoretical_yield": "14.2 g",
    "percent_yield": "66.4 %",
}


def test_every_right_answer_is_right(case: Case) -> None:
    verdicts = judge_sheet(case, all_right())
    assert {v.outcome for v in verdicts.values()} == {Outcome.RIGHT}
    assert set(verdicts) == set(RIGHT)


def test_a_wrong_value_carried_on_earns_the_later_steps(case: Case) -> None:
    sheet = all_right(**UPSIDE_DOWN)
    verdicts = judge_sheet(case, sheet)
    assert verdicts["oil_mass"].outcome in NOT_RIGHT
    later = [verdicts[step] for step in list(UPSIDE_DOWN)[1:]]
    assert {v.outcome for v in later} == {Outcome.FOLLOWS}
    assert all(v.value_holds and v.follows for v in later)
    assert all("The mass of olive oil still needs" in v.sentence for v in later)


def test_steps_that_do_not_rest_on_it_stay_right(case: Case) -> None:
    verdicts = judge_sheet(case, all_right(**UPSIDE_DOWN))
    for step in ("soap_mass", "lye_amount", "soap.molar_mass"):
        assert verdicts[step].outcome is Outcome.RIGHT


def test_a_right_value_after_a_wrong_one_is_right(case: Case) -> None:
    verdict = verdict_on(case, "oil_amount", "0.0129 mol", oil_mass="13.7 g")
    assert verdict.outcome is Outcome.RIGHT
    assert not verdict.follows


def test_what_follows_a_right_value_is_right_again(case: Case) -> None:
    verdict = verdict_on(
        case, "soap_amount", "0.0386 mol", oil_mass="13.7 g", oil_amount="0.0129 mol"
    )
    assert verdict.outcome is Outcome.RIGHT


def test_neither_the_true_nor_the_own_value_is_wrong(case: Case) -> None:
    verdict = verdict_on(case, "oil_amount", "0.0142 mol", oil_mass="13.7 g")
    assert verdict.outcome in NOT_RIGHT


def test_the_first_fault_is_named_and_not_the_last(case: Case) -> None:
    # 0.0142 follows from nothing; 3 × 0.0142 = 0.0426 does, from both.
    verdict = verdict_on(
        case, "soap_amount", "0.0426 mol", oil_mass="13.7 g", oil_amount="0.0142 mol"
    )
    assert "The mass of olive oil" in verdict.sentence


def test_follow_through_stops_at_a_missing_step(case: Case) -> None:
    """The amount of oil is asked and missing: 3 × 13.7/885.453 = 0.0464 follows not."""
    earlier = {"oil_mass": "13.7 g"}
    assert verdict_on(case, "soap_amount", "0.0464 mol", **earlier).outcome is (
        Outcome.WRONG
    )
    assert verdict_on(case, "soap_amount", "0.0386 mol", **earlier).outcome is (
        Outcome.RIGHT
    )


@pytest.mark.parametrize("text", ["", "?", "about so much", "1,375 g", "1e1 g"])
def test_an_answer_that_was_no_attempt_counts_as_missing(case: Case, text: str) -> None:
    verdict = verdict_on(case, "oil_amount", "0.0129 mol", oil_mass=text)
    assert verdict.outcome is Outcome.RIGHT


@pytest.mark.parametrize("text", ["-0.0085 mol", "0 mol"])
def test_follow_through_stops_at_an_amount_that_can_not_be(
    case: Case, text: str
) -> None:
    """From -0.0085 mol would follow -0.0085/3 × 210.14 = -0.595 g."""
    right = verdict_on(case, "acid_mass", "2.21 g", lye_left=text)
    wrong = verdict_on(case, "acid_mass", "-0.595 g", lye_left=text)
    assert right.outcome is Outcome.RIGHT
    assert wrong.outcome is Outcome.WRONG


def test_what_can_not_be_and_follows_earns_its_own_step_only(case: Case) -> None:
    """
    From 0.0257 mol of oil follows 0.0701 - 0.0771 = -0.0070 mol of lye.

    From that would follow -0.0070/3 × 210.14 = -0.490 g of acid.
    """
    earlier = {"lye_amount": "0.0701 mol", "oil_amount": "0.0257 mol"}
    left = verdict_on(case, "lye_left", "-0.0070 mol", **earlier)
    acid = verdict_on(case, "acid_mass", "-0.490 g", lye_left="-0.0070 mol", **earlier)
    assert left.outcome is Outcome.FOLLOWS
    assert acid.outcome is Outcome.WRONG


def test_a_wrong_reading_earns_later_steps(case: Case) -> None:
    """13.5 mL × 0.911 g/mL = 12.3 g."""
    verdict = verdict_on(case, "oil_mass", "12.3 g", oil_volume="13.5 mL")
    assert verdict.outcome is Outcome.FOLLOWS
    assert "The volume of olive oil still needs" in verdict.sentence


def test_a_reading_one_digit_off_is_right_all_the_way(case: Case) -> None:
    """
    12.6 mL is read for 12.5 mL.

    12.6 × 0.911 = 11.4786 g; / 885.453 = 0.012964 mol; × 3 = 0.038891 mol;
    × 304.449 = 11.840 g; 940 / 11.840 = 79.39 %; 0.070098 - 0.038891 = 0.031207 mol;
    / 3 × 210.138 = 2.1859 g.
    """
    off = {
        "oil_volume": "12.6 mL",
        "oil_mass": "11.479 g",
        "oil_amount": "0.01296 mol",
        "soap_amount": "0.03889 mol",
        "theoretical_yield": "11.84 g",
        "percent_yield": "79.39 %",
        "lye_left": "0.03121 mol",
        "acid_mass": "2.186 g",
    }
    verdicts = judge_sheet(case, all_right(**off, lye_amount="0.07010 mol"))
    wrong = {s: v for s, v in verdicts.items() if v.outcome is not Outcome.RIGHT}
    # Five figures are two more than the three of 12.6 mL.
    assert {step: v.outcome for step, v in wrong.items()} == {
        "oil_mass": Outcome.FIGURES
    }


def test_an_unread_reading_may_still_be_one_digit_off(case: Case) -> None:
    """Nobody typed 12.6 mL, but who read it so has 11.48 g."""
    assert verdict_on(case, "oil_mass", "11.48 g").outcome is Outcome.RIGHT
    typed = verdict_on(case, "oil_mass", "11.48 g", oil_volume="12.5 mL")
    assert typed.outcome is Outcome.WRONG


def test_a_right_result_carries_on_though_its_working_is_wrong(case: Case) -> None:
    wrong_way = Built((Placed("oil.density", turned=True),), "11.4 g")
    sheet: dict[str, Answer] = {"oil_mass": wrong_way}
    sheet |= answers(oil_amount="0.0129 mol")
    verdicts = judge_sheet(case, sheet)
    assert verdicts["oil_mass"].outcome is Outcome.WRONG
    assert verdicts["oil_mass"].value_holds
    assert verdicts["oil_amount"].outcome is Outcome.RIGHT


def test_a_value_without_any_follows_nothing(compiled: CompiledGraph) -> None:
    """A reading of nothing at all would divide by zero."""
    case = make_case(compiled)
    verdicts = judge_sheet(case, all_right(oil_volume="0.0 mL"))
    assert verdicts["oil_volume"].outcome is Outcome.WRONG
    assert verdicts["percent_yield"].outcome is Outcome.RIGHT


@pytest.mark.parametrize(
    ("step", "given"),
    [
        ("oil_mass", Typed("11.4 g")),
        ("oil_mass", Chosen(("oil",))),
        ("limiting", Typed("oil")),
        ("lye_amount", Built((), "0.0701 mol")),
    ],
)
def test_an_answer_of_another_kind_is_no_attempt(
    case: Case, step: str, given: Answer
) -> None:
    assert judge(case, step, {step: given}).outcome is Outcome.UNREAD


def test_answers_to_unknown_steps_are_left_aside(case: Case) -> None:
    assert judge_sheet(case, {"nothing": answer("nothing", "1 g")}) == {}


def test_one_step_has_the_verdict_that_the_sheet_gives_it(case: Case) -> None:
    sheet = all_right(**UPSIDE_DOWN)
    whole = judge_sheet(case, sheet)
    assert {step: judge(case, step, sheet) for step in sheet} == whole


def test_a_step_that_is_not_answered_has_no_verdict(case: Case) -> None:
    with pytest.raises(KeyError):
        judge(case, "oil_mass", {})


def test_a_second_answer_has_the_verdict_that_it_would_have_on_the_sheet(
    case: Case,
) -> None:
    sheet = all_right(**UPSIDE_DOWN)
    seen = SheetJudge(case, sheet)
    asks = {ask.id: ask for ask in case.graph.lab.public.asks}
    for step, text in {"oil_mass": "11.4 g", "percent_yield": "99.9 %"}.items():
        other = answer(step, text)
        assert seen.retry(asks[step], other) == judge(case, step, sheet | {step: other})


def test_a_choice_is_not_tried_again_by_itself(case: Case) -> None:
    asks = {ask.id: ask for ask in case.graph.lab.public.asks}
    with pytest.raises(ValueError, match="'limiting' asks for no quantity"):
        SheetJudge(case, {}).retry(asks["limiting"], Chosen(("oil",)))


def test_zeros_that_only_fill_carry_on_what_they_stand_for(
    compiled: CompiledGraph,
) -> None:
    """
    From 55.77 - 45.20 = 10.57 g, typed in milligrams with three figures.

    Carried unrounded, 10.57 / 11.7463 = 89.99 %.
    """
    case = make_case(compiled, recovery=0.90)
    earlier = {"dish_and_soap": "55.77 g", "soap_mass": "10600 mg"}
    found = verdict_on(case, "percent_yield", "89.99 %", **earlier)
    assert found.outcome is Outcome.RIGHT


def test_a_wrong_value_with_zeros_that_fill_carries_on_unrounded(case: Case) -> None:
    """From 286.485 g/mol, typed 286000 mg/mol: 0.038582 × 286.485 = 11.053 g."""
    earlier = {"soap.molar_mass": "286000 mg/mol", "soap_amount": "0.03858 mol"}
    found = verdict_on(case, "theoretical_yield", "11.05 g", **earlier)
    assert found.outcome is Outcome.FOLLOWS
