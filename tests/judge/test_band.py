"""The band of honest answers: no honest student falls out, and no slip gets in."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import ROUND_HALF_EVEN
from typing import TYPE_CHECKING

import pytest

from tests.support.honest import ABRIDGED, DISPLAY, Habit, Honest, draw_habit
from tests.support.student import NOT_RIGHT, answer, verdict_on
from workbook.judge.band import holds, is_coarse, widening
from workbook.judge.judge import SheetJudge, judge, judge_sheet
from workbook.judge.own import own_of
from workbook.judge.typed import Typing, read_typed
from workbook.measure.written import Comma, read_written
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.wire.answer import Answer
    from workbook.wire.verdict import Verdict

SEED = 20260302

#: Steps that rest on the volume of lye, which has two figures when read as 9.9 mL.
FROM_LYE = {"lye_amount", "lye_left", "acid_mass"}


def proper_figures(student: Honest, step: str) -> set[int]:
    """Return the figures that a step can have by the usual rules."""
    if step == "soap.molar_mass":
        return {5}  # 885.45 less 41.07 has two decimals
    if step == "soap_mass":
        return {3, 4}  # by places: 9.40 g, 10.40 g
    if step in FROM_LYE and student.lye_figures < 3:
        return {student.lye_figures}
    return {2, 3} if step in {"lye_left", "acid_mass"} else {3}


def wrong_figures(student: Honest, step: str) -> bool:
    """Return whether a step was typed with two figures too many or too few."""
    typed = student.figures.get(step, 3)
    return all(abs(typed - each) > 1 for each in proper_figures(student, step))


def unfair(student: Honest, verdicts: dict[str, Verdict]) -> dict[str, Verdict]:
    """Return the verdicts that an honest student would complain about."""
    return {
        step: verdict
        for step, verdict in verdicts.items()
        if verdict.outcome is not Outcome.RIGHT
        and not (
            verdict.outcome is Outcome.FIGURES
            and verdict.value_holds
            and wrong_figures(student, step)
        )
    }


def honest_class(cases: list[Case]) -> Iterator[tuple[Case, Honest]]:
    """Give each student of a class with answers of an honest kind."""
    chance = random.Random(SEED)  # noqa: S311 - a class is simulated, nothing is hidden
    for case in cases:
        yield case, Honest(case.values, draw_habit(chance), chance)


def test_an_honest_student_is_never_wrong(drawn_class: list[Case]) -> None:
    found = [
        (student.habit, student.answers[step], verdict)
        for case, student in honest_class(drawn_class)
        for step, verdict in unfair(student, judge_sheet(case, student.answers)).items()
    ]
    assert found == []


def test_an_honest_student_who_skips_steps_is_never_wrong(
    drawn_class: list[Case],
) -> None:
    """All but two steps, which have more than the three figures of some students."""
    chance = random.Random(SEED + 1)  # noqa: S311 - as above
    found = []
    for case, student in honest_class(drawn_class[:200]):
        some = {
            step: given
            for step, given in student.answers.items()
            if step in {"soap.molar_mass", "soap_mass"} or chance.random() < 0.5
        }
        found += list(unfair(student, judge_sheet(case, some)).items())
    assert found == []


#: A slip of each kind: the step, and the value that it leads to from true values.
SLIPS: dict[str, tuple[str, str, Callable[[dict[str, float]], float]]] = {
    "a lost hydrogen, 303.44 for 304.45": (
        "soap.molar_mass",
        "g/mol",
        lambda _: 304.449 - 1.008,
    ),
    "a third of the oil alone": ("soap.molar_mass", "g/mol", lambda _: 885.453 / 3),
    "the dish not subtracted": ("soap_mass", "g", lambda v: v["dish_and_soap"]),
    "the filter weighed too": ("soap_mass", "g", lambda v: _soap(v) + 0.70),
    "percent of the oil's mass": (
        "percent_yield",
        "%",
        lambda v: 100 * _soap(v) / v["oil_mass"],
    ),
    "milligrams for grams": ("oil_mass", "mg", lambda v: v["oil_mass"]),
    "the density upside down": ("oil_mass", "g", lambda v: v["oil_volume"] / 0.911),
    "the density left out": ("oil_mass", "g", lambda v: v["oil_volume"]),
    "the coefficient dropped": ("soap_amount", "mol", lambda v: v["oil_amount"]),
    "the coefficient in a difference dropped": (
        "lye_left",
        "mol",
        lambda v: v["lye_amount"] - v["oil_amount"],
    ),
}


def _soap(values: dict[str, float]) -> float:
    return values["dish_and_soap"] - values["dish"]


@pytest.fixture(scope="module")
def blank_sheets(drawn_class: list[Case]) -> list[tuple[Case, SheetJudge]]:
    """Return a sheet for each student on which nothing is answered."""
    return [(case, SheetJudge(case, {})) for case in drawn_class]


@pytest.mark.parametrize("slip", SLIPS)
@pytest.mark.parametrize("figures", [3, 4, 7])
def test_a_slip_is_wrong_for_every_student(
    blank_sheets: list[tuple[Case, SheetJudge]], slip: str, figures: int
) -> None:
    """All but the molar mass, which is the same for all."""
    step, unit, lead = SLIPS[slip]
    outcomes = set()
    for case, sheet in blank_sheets[:: 100 if step == "soap.molar_mass" else 1]:
        text = f"{lead(dict(case.values)):#.{figures}g}".rstrip(".") + f" {unit}"
        (ask,) = (ask for ask in case.graph.lab.public.asks if ask.id == step)
        outcomes.add(sheet.retry(ask, answer(step, text)).outcome)
    assert outcomes <= NOT_RIGHT


def test_a_slip_is_wrong_also_after_right_answers(drawn_class: list[Case]) -> None:
    usual = Habit(
        figures=3,
        guard=DISPLAY,
        rounds_on_the_way=False,
        ties=ROUND_HALF_EVEN,
        weights=ABRIDGED,
        misread=(0, 0),
    )
    found = set()
    for case in drawn_class[::20]:
        student = Honest(case.values, usual, random.Random(SEED))  # noqa: S311 - as above
        for step, unit, lead in SLIPS.values():
            slipped = answer(step, f"{lead(dict(case.values)):.4g} {unit}")
            sheet: dict[str, Answer] = student.answers | {step: slipped}
            found.add(judge(case, step, sheet).outcome)
    assert found <= NOT_RIGHT


@pytest.mark.parametrize(
    ("text", "holds_there"),
    [
        # 11.3875 g is 11.4 g within half of a tenth: from 11.3375 to 11.4375.
        ("11.4 g", True),
        ("11.3 g", False),
        ("11.5 g", False),
        # It is 11.39 g within half of a hundredth: from 11.3825 to 11.3925.
        ("11.39 g", True),
        ("11.38 g", False),
        ("11.40 g", False),
    ],
)
def test_rounding_to_the_last_typed_digit_is_allowed(
    case: Case, text: str, *, holds_there: bool
) -> None:
    verdict = verdict_on(case, "oil_mass", text, oil_volume="12.5 mL")
    assert verdict.value_holds is holds_there


@pytest.mark.parametrize("text", ["11.387 g", "11.388 g"])
def test_a_tie_may_be_rounded_either_way(case: Case, text: str) -> None:
    """11.3875 g has a tie at its fourth decimal."""
    verdict = verdict_on(case, "oil_mass", text, oil_volume="12.5 mL")
    assert verdict.value_holds


@pytest.mark.parametrize(
    ("grams_per_mole", "holds_there"),
    [
        # By hand for C57H104O6: 885.453 by the abridged table, 885.61 to two decimals.
        (885.45, True),
        (885.61, True),
        # A hydrogen too many or too few: 886.46, 884.45.
        (886.46, False),
        (884.45, False),
    ],
)
def test_the_choice_of_table_is_allowed_and_no_more(
    case: Case, grams_per_mole: float, *, holds_there: bool
) -> None:
    """All seven figures, so that no rounding hides the difference."""
    verdict = verdict_on(
        case, "planned_oil_amount", f"{1000 * 12.0 / grams_per_mole:.7g} mmol"
    )
    assert verdict.value_holds is holds_there


@pytest.mark.parametrize(
    ("text", "holds_there"),
    [
        # 11.5 × 1.219 = 14.0185 g, × 0.200 = 2.8037 g, / 39.997 = 0.070098 mol.
        ("0.07010 mol", True),
        # Rounded on the way: 14.0 g, 2.80 g, 0.07001 mol.
        ("0.07001 mol", True),
        # Both roundings together can't move it by 1 %.
        ("0.0709 mol", False),
        ("0.0693 mol", False),
    ],
)
def test_rounding_on_the_way_is_allowed_and_no_more(
    case: Case, text: str, *, holds_there: bool
) -> None:
    verdict = verdict_on(case, "lye_amount", text, lye_volume="11.5 mL")
    assert verdict.value_holds is holds_there


def test_an_author_can_widen_a_band(case: Case) -> None:
    wide = widened(case, "oil_mass", "5 %")
    assert not verdict_on(case, "oil_mass", "11.8 g").value_holds
    assert verdict_on(wide, "oil_mass", "11.8 g").value_holds
    quantity = case.graph.quantities["oil_mass"]
    assert widening(wide, quantity, 20.0) == pytest.approx(1.0)


def test_a_band_is_widened_by_an_amount_of_its_own_kind(case: Case) -> None:
    wide = widened(case, "oil_mass", "200 mg")
    assert widening(wide, case.graph.quantities["oil_mass"], 20.0) == 0.2


def test_points_of_a_percentage_are_added_as_they_are(case: Case) -> None:
    wide = widened(case, "percent_yield", "2 %")
    assert widening(wide, case.graph.quantities["percent_yield"], 80.0) == 2.0


def widened(case: Case, step: str, text: str) -> Case:
    """Return a case whose author widens a step."""
    lab = case.graph.lab
    widen = {step: read_written(text, comma=Comma.ASK)}
    key = replace(lab.key, widen=widen)
    return replace(case, graph=replace(case.graph, lab=replace(lab, key=key)))


def typed(case: Case, step: str, text: str) -> Typing:
    """Return how an answer is read."""
    found = read_typed(case, case.graph.quantities[step], text)
    assert isinstance(found, Typing)
    return found


def own(case: Case, step: str) -> Own:
    """Return where a student stands who has answered nothing."""
    owns: dict[str, Own] = {}
    for quantity in case.graph.quantities.values():
        owns[quantity.name] = own_of(case, quantity, owns)
    return owns[step]


@pytest.mark.parametrize(
    ("text", "coarse"),
    [("9 g", True), ("9.4 g", False), ("9.40 g", False), ("9.400 g", False)],
)
def test_two_figures_short_of_three_is_too_coarse_to_tell(
    case: Case, text: str, *, coarse: bool
) -> None:
    assert is_coarse(own(case, "soap_mass"), typed(case, "soap_mass", text)) is coarse


def test_three_figures_tell_also_where_five_are_proper(case: Case) -> None:
    """
    304 stands for 304.45, and 303 and 306 do not.

    305 may: weights of two decimals give 304.50, which some round up.
    """
    outcomes = {
        text: verdict_on(case, "soap.molar_mass", f"{text} g/mol").outcome
        for text in ("304", "303", "306", "3.0e2", "304.5")
    }
    assert outcomes["304"] is Outcome.FIGURES
    assert {outcomes["303"], outcomes["306"]} <= NOT_RIGHT
    assert outcomes["3.0e2"] is Outcome.COARSE
    assert outcomes["304.5"] is Outcome.RIGHT


def test_the_ends_of_a_band_count(case: Case) -> None:
    dish = own(case, "dish")
    assert holds(dish, typed(case, "dish", "45.2 g"), 0.0)
    assert holds(dish, typed(case, "dish", "45.15 g"), 0.045)
    assert not holds(dish, typed(case, "dish", "45.15 g"), 0.04)
