"""
Wrong values explained; sums by hand, for the student of `tests.support.student`.

12.5 mL of oil with 0.911 g/mL, 11.5 mL of lye with 1.219 g/mL and 20.0 %.
"""

from __future__ import annotations

import random
import re
from typing import TYPE_CHECKING

import pytest

from tests.support.honest import Honest, draw_habit
from tests.support.slip import REFERENCE, build, solve
from tests.support.student import CHAINS, all_right, answer, make_case, verdict_on
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE
from workbook.judge import words
from workbook.judge.case import Case, Convention
from workbook.judge.judge import SheetJudge, judge, judge_sheet
from workbook.wire.answer import Built, Placed, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph

CASES = (
    # 12.5 / 0.911; 12.5; 12.5 × 0.911²; 12.5 × 1.219
    ("oil_mass", "13.7 g", SlipKind.DENSITY_UPSIDE_DOWN),
    ("oil_mass", "12.5 g", SlipKind.DENSITY_LEFT_OUT),
    ("oil_mass", "10.37 g", SlipKind.DENSITY_TWICE),
    ("oil_mass", "15.2 g", SlipKind.DENSITY_OF_ANOTHER),
    # the right value in another unit: 11.4
    ("oil_mass", "11.4 mg", SlipKind.THOUSAND),
    ("oil_mass", "114 g", SlipKind.TEN),
    # 0.0129 mol without the ratio 3
    ("lye_needed", "0.0136 mol", None),
    # 14.02 g / 39.997; 2.30 mol of "20 mol/L"
    ("lye_amount", "0.3505 mol", SlipKind.SOLUTION_AS_PURE),
    ("lye_amount", "0.230 mol", SlipKind.PERCENT_AS_MOLARITY),
    # 54.60 g, the dish with the soap; 45.20 + 54.60
    ("soap_mass", "54.60 g", SlipKind.TARE_LEFT_ON),
    ("soap_mass", "99.80 g", SlipKind.TARE_ADDED),
    # 11.7463 / 9.40; 9.40 / 11.3875; 100 - 80.0
    ("percent_yield", "125 %", SlipKind.YIELD_UPSIDE_DOWN),
    ("percent_yield", "82.5 %", SlipKind.COMPARED_WITH_REAGENT),
    ("percent_yield", "20.0 %", SlipKind.MISSED_SHARE),
    ("soap.molar_mass", "303.44 g/mol", SlipKind.HYDROGEN_LOST),
    ("soap.molar_mass", "913.35 g/mol", SlipKind.NEVER_DIVIDED),
)


@pytest.mark.parametrize(("step", "text", "kind"), CASES)
def test_a_mistake_is_named(
    case: Case, step: str, text: str, kind: SlipKind | None
) -> None:
    read = {"oil_volume": "12.5 mL", "lye_volume": "11.5 mL", "dish": "45.20 g"}
    found = verdict_on(case, step, text, dish_and_soap="54.60 g", **read)
    assert found.outcome is Outcome.SLIP
    assert kind is None or found.sentence == ALONE[kind]
    assert not found.value_holds


def test_a_mistake_is_looked_for_from_the_students_own_values(case: Case) -> None:
    # 0.0200 mol of oil are wrong; as many of soap, and the ratio is what is missing.
    found = verdict_on(case, "soap_amount", "0.0200 mol", oil_amount="0.0200 mol")
    assert found.outcome is Outcome.SLIP
    assert "coefficients" in found.sentence


def test_a_second_mistake_is_named_after_a_first(case: Case) -> None:
    earlier = {"oil_volume": "12.5 mL", "oil_mass": "13.7 g"}
    found = verdict_on(case, "oil_amount", "13.7 mol", **earlier)
    assert found.sentence == ALONE[SlipKind.MOLAR_MASS_LEFT_OUT]


def test_two_explanations_are_none(compiled: CompiledGraph) -> None:
    # 12.5 g were planned: is it the plan, or the volume taken for the mass?
    torn = make_case(compiled, planned_oil=12.5)
    found = verdict_on(torn, "oil_mass", "12.5 g", oil_volume="12.5 mL")
    assert (found.outcome, found.sentence) == (Outcome.WRONG, words.RESULT_NOT)


@pytest.mark.parametrize(
    ("text", "outcome"), [("22.8 g", Outcome.WRONG), ("22.80 g", Outcome.SLIP)]
)
def test_a_value_close_to_the_right_one_stays_unexplained(
    text: str, outcome: Outcome
) -> None:
    # 25.0 mL × 0.915 g/mL = 22.875 g: 22.8 may be that, carelessly rounded, or a
    # mistake that gives 22.80 g.
    own = 'is = "oil_volume * oil.density * 0.9967"\nsays = "Watch the temperature."'
    off = '[slips]\noff = ["cut_off"]'
    graph = build(f'{REFERENCE}\n{off}\n[slips.own.warm]\nof = "oil_mass"\n{own}\n')
    case = Case(graph, solve(graph), Convention())
    answers = {"oil_volume": Typed("25.0 mL"), "oil_mass": Typed(text)}
    assert judge(case, "oil_mass", answers).outcome is outcome


def test_a_value_that_no_mistake_gives_stays_unexplained(case: Case) -> None:
    found = verdict_on(case, "lye_amount", "0.0555 mol", lye_volume="11.5 mL")
    assert (found.outcome, found.sentence) == (Outcome.WRONG, words.WRONG)


@pytest.mark.parametrize(
    ("text", "outcome"), [("10.4 g", Outcome.WRONG), ("10.37 g", Outcome.SLIP)]
)
def test_what_a_guess_could_meet_as_well_stays_unexplained(
    case: Case, text: str, outcome: Outcome
) -> None:
    # 12.5 mL × (0.911 g/mL)² = 10.374 g.
    assert verdict_on(case, "oil_mass", text, oil_volume="12.5 mL").outcome is outcome


def test_rounding_on_the_way_does_not_hide_a_mistake(case: Case) -> None:
    # 11.5 / 1.219 = 9.43; × 0.200 = 1.89; / 39.997 = 0.0473; unrounded it is 0.0472.
    for text in ("0.0472 mol", "0.0473 mol"):
        found = verdict_on(case, "lye_amount", text, lye_volume="11.5 mL")
        assert found.sentence == ALONE[SlipKind.SOLUTION_DENSITY_UPSIDE_DOWN]


def test_a_missing_unit_is_told_beside_the_mistake(case: Case) -> None:
    found = verdict_on(case, "lye_amount", "0.230", lye_volume="11.5 mL")
    assert found.sentence.startswith(ALONE[SlipKind.PERCENT_AS_MOLARITY])
    assert found.sentence.endswith("Write it with the number.")


def test_a_chain_that_is_wrong_keeps_its_own_sentence(case: Case) -> None:
    turned = Placed("oil.density", turned=not CHAINS["oil_mass"].turned)
    answers = {"oil_volume": answer("oil_volume", "12.5 mL")}
    answers["oil_mass"] = Built((turned,), "13.7 g")
    found = judge(case, "oil_mass", answers)
    assert found.outcome is Outcome.SLIP
    assert found.sentence.startswith("A factor is upside down")
    assert found.at == 0


def test_another_try_is_explained_like_the_standing_answer(case: Case) -> None:
    sheet = SheetJudge(case, all_right())
    asks = {ask.id: ask for ask in case.graph.lab.public.asks}
    wrong = answer("soap_mass", "54.60 g")
    standing = judge(case, "soap_mass", all_right(soap_mass="54.60 g"))
    assert sheet.retry(asks["soap_mass"], wrong) == standing


@pytest.mark.parametrize("seed", range(40))
def test_nothing_is_named_for_an_honest_student(
    drawn_class: list[Case], seed: int
) -> None:
    chance = random.Random(seed)  # noqa: S311  no secret
    student = Honest(drawn_class[seed].values, draw_habit(chance), chance)
    verdicts = judge_sheet(drawn_class[seed], student.answers).values()
    assert Outcome.SLIP not in {verdict.outcome for verdict in verdicts}


def test_no_sentence_of_a_slip_holds_a_digit(case: Case) -> None:
    for step, text, _ in CASES:
        sentence = verdict_on(case, step, text).sentence
        assert not re.search(r"\d", sentence.replace("Line 1", ""))
