"""Readings of the student's own bench, and everything that follows from them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.kiln import CHANGE, READINGS, RIGHT, make_kiln_case
from tests.support.lab import CHALK, make_graph
from tests.support.soap import make_attempts
from workbook.judge.case import Case, Convention
from workbook.judge.judge import judge, judge_sheet
from workbook.judge.noted import list_noted, settle
from workbook.judge.worked import work
from workbook.wire.answer import Noted, Typed
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(scope="module")
def case(tmp_path_factory: pytest.TempPathFactory) -> Case:
    return make_kiln_case(tmp_path_factory.mktemp("kiln"))


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("24.50 g", Outcome.NOTED),
        ("24500 mg", Outcome.NOTED),
        ("2.450e1 g", Outcome.NOTED),
        ("24.00 g", Outcome.NOTED),
        ("26.00 g", Outcome.NOTED),
        ("24.5 g", Outcome.UNFIT),
        ("24.500 g", Outcome.UNFIT),
        ("23.99 g", Outcome.UNFIT),
        ("26.01 g", Outcome.UNFIT),
        ("-24.50 g", Outcome.UNFIT),
        ("24.50 mL", Outcome.DIMENSION),
        ("24.50 blobs", Outcome.UNREAD),
        ("", Outcome.BLANK),
    ],
)
def test_a_reading_suits_its_instrument_and_its_window(
    case: Case, text: str, outcome: Outcome
) -> None:
    verdict = judge(case, "crucible", {"crucible": Noted(text)})
    assert verdict.outcome is outcome
    assert verdict.value_holds is (outcome is Outcome.NOTED)


def test_what_is_not_noted_is_told_the_window_and_the_digits(case: Case) -> None:
    said = [
        judge(case, "crucible", {"crucible": Noted(text)}).sentence
        for text in ("2.45 g", "24.5 g", "24.500 g")
    ]
    assert "between 24.00 and 26.00 g" in said[0]
    assert "more digits than you wrote" in said[1]
    assert "You wrote more digits" in said[2]
    assert Outcome.UNFIT in NO_ATTEMPT


def test_everything_follows_from_the_students_own_readings(case: Case) -> None:
    verdicts = judge_sheet(case, {**READINGS, **RIGHT})
    assert {verdicts[step].outcome for step in READINGS} == {Outcome.NOTED}
    assert {verdicts[step].outcome for step in RIGHT} == {Outcome.RIGHT}


def test_another_reading_leads_to_other_answers(case: Case) -> None:
    changed = {**READINGS, **RIGHT, "crucible": CHANGE}
    verdicts = judge_sheet(case, changed)
    assert verdicts["lime_mass"].outcome is Outcome.WRONG
    assert verdicts["theoretical_yield"].outcome is Outcome.RIGHT
    new = {"lime_mass": Typed("1.25 g"), "percent_yield": Typed("89.2 %")}
    verdicts = judge_sheet(case, changed | new)
    assert {verdicts[step].outcome for step in new} == {Outcome.RIGHT}


def test_a_slip_is_named_by_the_students_own_readings(case: Case) -> None:
    # The yield upside down: 1.4007 g / 1.30 g = 107.7 %.
    answers = {**READINGS, **RIGHT, "percent_yield": Typed("107.7 %")}
    assert judge(case, "percent_yield", answers).outcome is Outcome.SLIP


def test_a_wrong_answer_still_carries_on(case: Case) -> None:
    # 1.20 g of lime are 85.7 % of 1.4007 g.
    wrong = {"lime_mass": Typed("1.20 g"), "percent_yield": Typed("85.7 %")}
    verdicts = judge_sheet(case, {**READINGS, **RIGHT, **wrong})
    assert verdicts["percent_yield"].outcome is Outcome.FOLLOWS


@pytest.mark.parametrize("given", [None, Noted("24.5 g"), Typed("24.50 g")])
def test_follow_through_stops_where_an_own_reading_is_missing(
    case: Case, given: Noted | Typed | None
) -> None:
    answers = {**READINGS, **RIGHT}
    del answers["crucible"]
    verdicts = judge_sheet(case, answers | ({"crucible": given} if given else {}))
    early = {step for step in RIGHT if verdicts[step].outcome is Outcome.EARLY}
    assert early == {"lime_mass", "percent_yield"}
    assert verdicts["theoretical_yield"].outcome is Outcome.RIGHT


def test_what_comes_too_early_names_the_open_readings_and_no_relation(
    case: Case,
) -> None:
    said = judge(case, "lime_mass", {"lime_mass": Typed("1.30 g")}).sentence
    assert said.endswith(
        "Still open: mass of the empty crucible; mass of chalk; mass of crucible and "
        "lime."
    )


def test_a_drawn_reading_is_judged_as_ever(case: Case) -> None:
    shown = f"{case.values['oven'] - 273.15:.1f} °C"
    assert judge(case, "oven", {"oven": Typed(shown)}).outcome is Outcome.RIGHT
    assert judge(case, "oven", {"oven": Noted(shown)}).outcome is Outcome.UNREAD


def test_a_change_needs_a_reason(case: Case) -> None:
    bare = judge(case, "crucible", {"crucible": Noted("24.55 g", " ", "24.50 g")})
    assert bare.outcome is Outcome.UNFIT
    assert "Write why" in bare.sentence
    assert judge(case, "crucible", {"crucible": CHANGE}).outcome is Outcome.NOTED


def test_the_first_reading_stands_until_one_with_a_reason(case: Case) -> None:
    quantity = case.graph.quantities["crucible"]
    given = [Noted("2 g"), READINGS["crucible"], Noted("25.00 g"), CHANGE, Noted("9 g")]
    tries = make_attempts(("crucible", each) for each in given)
    assert list_noted(case, quantity, tries) == (tries[1], tries[3])
    assert list_noted(case, quantity, tries[:1]) == ()


def test_a_lab_without_own_readings_is_left_as_it_is(tmp_path: Path) -> None:
    case = Case(make_graph(tmp_path, CHALK), {}, Convention())
    assert settle(case, {}) is case


def test_the_answer_book_has_words_where_it_can_have_no_number(case: Case) -> None:
    worked = {each.step_id: each for each in work(settle(case, {}))}
    assert worked["crucible"].value_text == "the student's own reading"
    assert worked["lime_mass"].relation_text == "crucible_and_lime - crucible"
    assert worked["percent_yield"].value_text.startswith("follows from the student's")
    assert worked["planned_amount"].value_text.endswith(" mol")


def test_worked_answers_are_made_of_the_students_own_readings(case: Case) -> None:
    worked = {each.step_id: each for each in work(settle(case, READINGS))}
    assert worked["crucible"].value_text == "24.50 g"
    assert worked["lime_mass"].substituted_text == "25.80 g - 24.50 g"
    assert worked["percent_yield"].value_text == "92.8 %"
