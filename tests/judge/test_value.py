"""Value and figures, judged apart: right, coarse, over-precise, wrong."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.support.student import NOT_RIGHT, all_right, answers, make_case, verdict_on
from workbook.judge.case import Convention
from workbook.judge.judge import judge_sheet
from workbook.judge.own import own_of
from workbook.judge.value import Judgement, judge_value
from workbook.measure.written import Comma
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case
    from workbook.judge.own import Own


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        # 54.60 g - 45.20 g = 9.40 g, three figures; one more or fewer is accepted.
        ("9.40 g", Outcome.RIGHT),
        ("9.4 g", Outcome.RIGHT),
        ("9.400 g", Outcome.RIGHT),
        ("9.4000 g", Outcome.FIGURES),
        ("9.400000 g", Outcome.FIGURES),
        ("9 g", Outcome.COARSE),
        ("8 g", Outcome.WRONG),
        # The zeros of 9400 mg may count or not: nobody can tell, nobody loses.
        ("9400 mg", Outcome.RIGHT),
        ("0.0094 kg", Outcome.RIGHT),
        ("0.009400000 kg", Outcome.FIGURES),
    ],
)
def test_figures_are_an_outcome_of_their_own(
    case: Case, text: str, outcome: Outcome
) -> None:
    verdict = verdict_on(case, "soap_mass", text)
    assert verdict.outcome is outcome
    assert verdict.value_holds is (outcome in {Outcome.RIGHT, Outcome.FIGURES})


def test_the_sentence_says_on_which_side_the_figures_are(case: Case) -> None:
    many = verdict_on(case, "soap_mass", "9.4000 g").sentence
    few = verdict_on(case, "soap.molar_mass", "304 g/mol").sentence
    assert many.startswith("The value is right. But you wrote more figures")
    assert few.startswith("The value is right. But your data support more figures")


def test_too_few_figures_to_tell_cost_no_try(case: Case) -> None:
    verdict = verdict_on(case, "soap_mass", "9 g")
    assert verdict.outcome in NO_ATTEMPT
    assert "not counted as a try" in verdict.sentence


@pytest.mark.parametrize(
    ("slack", "outcome"), [(0, Outcome.FIGURES), (1, Outcome.RIGHT)]
)
def test_a_course_chooses_the_slack(
    compiled: CompiledGraph, slack: int, outcome: Outcome
) -> None:
    case = make_case(compiled, Convention(figures_slack=slack))
    assert verdict_on(case, "soap_mass", "9.400 g").outcome is outcome


def test_a_difference_is_judged_by_places(compiled: CompiledGraph) -> None:
    """
    55.60 g less 45.20 g is 10.40 g: four figures, and five are one more.

    By the figures of its terms it would have four as well; of 45.60 g less 45.20 g
    only two of four are left, and four are too many.
    """
    plenty = make_case(compiled)
    earlier = {"dish": "45.20 g", "dish_and_soap": "45.60 g"}
    verdict = verdict_on(plenty, "soap_mass", "0.4000 g", **earlier)
    assert verdict.outcome is Outcome.FIGURES
    assert verdict_on(plenty, "soap_mass", "0.40 g", **earlier).value_holds


def test_a_value_that_follows_says_so_before_its_figures(case: Case) -> None:
    verdict = verdict_on(case, "oil_amount", "0.0154720 mol", oil_mass="13.70 g")
    assert verdict.outcome is Outcome.FIGURES
    assert verdict.follows
    assert verdict.sentence.startswith("By your own earlier values it is right")
    assert verdict.sentence.endswith("more figures than your data can support.")


def test_a_missing_unit_is_said_and_costs_no_value(case: Case) -> None:
    verdict = verdict_on(case, "soap_mass", "9.40")
    assert verdict.outcome is Outcome.RIGHT
    assert not verdict.unit_written
    assert "it was read as g" in verdict.sentence


def test_the_verdict_tells_how_the_text_was_read(case: Case) -> None:
    verdict = verdict_on(case, "soap_mass", "9,40g of soap")
    assert verdict.outcome is Outcome.RIGHT
    assert verdict.read_as == "9.40 g, 3 figures; 'of soap' was left aside"


@pytest.mark.parametrize(
    ("comma", "outcome"),
    [
        (Comma.ASK, {Outcome.ASKED}),
        (Comma.DECIMAL, {Outcome.RIGHT}),
        (Comma.THOUSANDS, NOT_RIGHT),
    ],
)
def test_a_course_chooses_what_a_comma_is(
    compiled: CompiledGraph, comma: Comma, outcome: set[Outcome]
) -> None:
    case = make_case(compiled, Convention(comma=comma))
    assert verdict_on(case, "soap_mass", "9,400 g").outcome in outcome


def judge_mass(case: Case, text: str, *stands: Own) -> Judgement:
    return judge_value(case, case.graph.quantities["soap_mass"], text, stands)


@pytest.fixture
def stands(case: Case) -> tuple[Own, Own]:
    """Return a sound stand at 9.40 g, and a faulty one at 9.70 g."""
    owns: dict[str, Own] = {}
    for quantity in case.graph.quantities.values():
        owns[quantity.name] = own_of(case, quantity, owns)
    sound = owns["soap_mass"]
    shifted = replace(sound.span, low=9.70, high=9.70)
    return sound, replace(sound, span=shifted, fault="dish")


def test_the_soundest_stand_is_taken(case: Case, stands: tuple[Own, Own]) -> None:
    """9.5 g with two figures would agree with either."""
    judgement = judge_mass(case, "9.40 g", *stands)
    assert judgement.verdict.outcome is Outcome.RIGHT
    assert judgement.held == stands[:1]


def test_a_value_may_agree_with_both(case: Case, stands: tuple[Own, Own]) -> None:
    near = replace(stands[1], span=replace(stands[1].span, low=9.42, high=9.42))
    judgement = judge_mass(case, "9.4 g", stands[0], near)
    assert judgement.held == (stands[0], near)


def test_the_faulty_stand_is_followed(case: Case, stands: tuple[Own, Own]) -> None:
    judgement = judge_mass(case, "9.70 g", *stands)
    assert judgement.verdict.outcome is Outcome.FOLLOWS
    assert judgement.held == stands[1:]


def test_a_wrong_value_agrees_with_nothing(case: Case, stands: tuple[Own, Own]) -> None:
    judgement = judge_mass(case, "9.55 g", *stands)
    assert judgement.verdict.outcome is Outcome.WRONG
    assert judgement.held == ()
    assert judgement.typing is not None


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        # 0.038582 mol × 300 g/mol = 11.57 g; × 304.45 g/mol = 11.75 g.
        ("11.57 g", Outcome.FOLLOWS),
        ("11.75 g", Outcome.RIGHT),
        ("11.20 g", Outcome.WRONG),
    ],
)
def test_what_comes_after_may_follow_from_a_value_too_coarse_to_tell(
    case: Case, text: str, outcome: Outcome
) -> None:
    # 300 may be good to one figure, and then it could be 304.45.
    given = all_right() | answers(**{"soap.molar_mass": "300 g/mol"})
    verdicts = judge_sheet(case, given | answers(theoretical_yield=text))
    assert verdicts["soap.molar_mass"].outcome is Outcome.COARSE
    assert verdicts["theoretical_yield"].outcome is outcome
