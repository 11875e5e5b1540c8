"""Which answer of each step counts."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.support.lime import make_lime_case
from tests.support.soap import make_attempts
from workbook.judge.judge import judge
from workbook.marking.standing import LOOK_BACK, judge_standing
from workbook.wire.answer import Answer, Chosen, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case


@pytest.fixture
def mass(answers: dict[str, Answer]) -> Answer:
    """Return the right mass of soap."""
    return answers["soap_mass"]


def stand(case: Case, *answers: Answer) -> Answer:
    """Return which of several answers to one step stands."""
    attempts = make_attempts(("soap_mass", answer) for answer in answers)
    return judge_standing(case, attempts)["soap_mass"][0]


def test_the_latest_answer_stands(case: Case, mass: Answer) -> None:
    assert stand(case, Typed("1.11 g"), mass) == mass
    assert stand(case, mass, Typed("1.11 g")) == Typed("1.11 g")


@pytest.mark.parametrize("text", ["", "seven", "1,234 g"])
def test_what_was_no_attempt_leaves_the_one_before_standing(
    case: Case, mass: Answer, text: str
) -> None:
    assert stand(case, mass, Typed(text)) == mass
    assert stand(case, mass, Typed(text), Typed(text + " ")) == mass


def test_a_unit_of_another_kind_is_an_attempt(case: Case, mass: Answer) -> None:
    assert stand(case, mass, Typed("7.36 mL")) == Typed("7.36 mL")


def test_a_step_without_any_attempt_keeps_its_latest_text(case: Case) -> None:
    attempts = make_attempts([("dish", Typed("ten")), ("dish", Typed("eleven"))])
    answer, verdict, *_ = judge_standing(case, attempts)["dish"]
    assert answer == Typed("eleven")
    assert verdict.outcome is Outcome.UNREAD


def test_a_step_that_was_not_answered_is_left_out(case: Case) -> None:
    attempts = make_attempts([("dish", Typed("45.05 g"))])
    assert list(judge_standing(case, attempts)) == ["dish"]


def test_an_attempt_that_is_repeated_counts_once(case: Case, mass: Answer) -> None:
    first, second = make_attempts([("soap_mass", mass), ("soap_mass", Typed("1.11 g"))])
    twin = replace(second, id=first.id)
    answer, *_ = judge_standing(case, (first, twin))["soap_mass"]
    assert answer == mass


def test_bulk_and_live_give_the_same_verdict_on_every_step(
    case: Case, answers: dict[str, Answer]
) -> None:
    bulk = judge_standing(case, make_attempts(answers.items()))
    for step in answers:
        assert bulk[step][1] == judge(case, step, answers)


def test_thousands_of_unreadable_answers_cost_little_time(case: Case) -> None:
    noise = [("dish", Typed(f"?{number}")) for number in range(10_000)]
    start = time.perf_counter()
    judge_standing(case, make_attempts(noise))
    # One sheet takes some 20 ms, so LOOK_BACK of them take about a second.
    assert time.perf_counter() - start < LOOK_BACK * 0.2


def test_of_predictions_the_first_that_was_made_stands(tmp_path: Path) -> None:
    case = make_lime_case(tmp_path)
    given = ((), ("sour",), ("sweet",), ("sour",), ("none",))
    attempts = make_attempts(("smell", Chosen(options)) for options in given)
    answer, verdict, *_ = judge_standing(case, attempts)["smell"]
    assert answer == Chosen(("sour",))
    assert verdict.outcome is Outcome.COMMITTED


def test_attempts_are_counted_without_what_could_not_be_read(
    case: Case, mass: Answer
) -> None:
    given = (Typed("1.11 g"), Typed("?"), Typed("2.22 g"), Typed("1.11 g"), mass)
    attempts = make_attempts(("soap_mass", answer) for answer in given)
    stood = judge_standing(case, attempts)["soap_mass"]
    assert (stood.number, stood.attempt.id) == (3, "try-4")


def test_within_a_limit_the_latest_of_the_first_stands(
    case: Case, mass: Answer
) -> None:
    given = (Typed("1.11 g"), Typed("?"), Typed("2.22 g"), mass)
    attempts = make_attempts(("soap_mass", answer) for answer in given)
    stood = judge_standing(case, attempts, {"soap_mass": 2, "dish": 1})["soap_mass"]
    assert (stood.answer, stood.number, stood.beyond) == (Typed("2.22 g"), 2, 1)


def test_the_band_is_where_the_value_was_accepted(case: Case, mass: Answer) -> None:
    attempts = make_attempts([("soap_mass", mass)])
    (span,) = judge_standing(case, attempts)["soap_mass"].accepted
    true = case.values["dish_and_soap"] - case.values["dish"]
    # Half a unit of the last digit, 0.01 g, to either side; a display has no allowance.
    assert span.holds(true + 0.005)
    assert not span.holds(true + 0.011)
