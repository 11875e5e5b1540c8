"""A range against the two readings that it is made of: 131.2 and 134.6 °C."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.melting import make_melting_case
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE
from workbook.judge.judge import judge
from workbook.judge.worked import work
from workbook.wire.answer import Answer, Chosen, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case

#: What the thermometer shows, as typed.
READ: dict[str, Answer] = {"first": Typed("131.2 °C"), "last": Typed("134.6 °C")}


@pytest.fixture
def case(tmp_path: Path) -> Case:
    return make_melting_case(tmp_path)


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("131.2-134.6 °C", Outcome.RIGHT),
        ("131.2 °C to 134.6 °C", Outcome.RIGHT),
        ("131,2 – 134,6 °C", Outcome.RIGHT),
        ("404.35-407.75 K", Outcome.FIGURES),
        ("131-135 °C", Outcome.FIGURES),
        ("131.20-134.60 °C", Outcome.FIGURES),
        ("131.2-134.9 °C", Outcome.WRONG),
        ("130.8-134.6 °C", Outcome.WRONG),
        # A melting point is no one value, and runs from low to high: common practice.
        ("134.6 °C", Outcome.SLIP),
        ("134.6-131.2 °C", Outcome.SLIP),
        # Neither of them is what was read.
        ("133.0 °C", Outcome.UNREAD),
        ("134.6-130.2 °C", Outcome.UNREAD),
        ("131.2-134.6 g", Outcome.DIMENSION),
        ("  ", Outcome.BLANK),
    ],
)
def test_a_range_is_held_against_both_readings(
    case: Case, text: str, outcome: Outcome
) -> None:
    assert judge(case, "melting", {**READ, "melting": Typed(text)}).outcome is outcome


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("131.2", SlipKind.ONE_END),
        ("134.6 °C", SlipKind.ONE_END),
        ("134.6 to 131.2 °C", SlipKind.RANGE_REVERSED),
    ],
)
def test_what_is_no_range_is_named(case: Case, text: str, kind: SlipKind) -> None:
    verdict = judge(case, "melting", {**READ, "melting": Typed(text)})
    assert verdict.sentence == ALONE[kind]
    assert not verdict.value_holds


def test_a_range_without_its_unit_holds_and_says_so(case: Case) -> None:
    verdict = judge(case, "melting", {**READ, "melting": Typed("131.2-134.6")})
    assert verdict.value_holds
    assert not verdict.unit_written
    assert "The unit is missing" in verdict.sentence


def test_a_reading_that_was_accepted_is_what_counts(case: Case) -> None:
    # One more tenth is within what the thermometer allows.
    answers = {**READ, "last": Typed("134.7 °C")}
    other = judge(case, "melting", {**answers, "melting": Typed("131.2-134.7 °C")})
    true = judge(case, "melting", {**answers, "melting": Typed("131.2-134.6 °C")})
    assert (other.outcome, true.outcome) == (Outcome.RIGHT, Outcome.WRONG)


def test_without_its_readings_a_range_is_held_against_the_scale(case: Case) -> None:
    verdict = judge(case, "melting", {"melting": Typed("131.3-134.5 °C")})
    assert verdict.outcome is Outcome.RIGHT


def test_a_choice_is_no_range(case: Case) -> None:
    verdict = judge(case, "melting", {"melting": Chosen(("first",))})
    assert verdict.outcome is Outcome.UNREAD


def test_the_answer_book_has_the_range(case: Case) -> None:
    worked = next(each for each in work(case) if each.step_id == "melting")
    assert worked.value_text == "131.2-134.6 °C"
