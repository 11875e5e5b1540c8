"""One hand-in to its marks; every sum of points is worked out by hand beside it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import pytest
from msgspec.structs import replace

from tests.support.lime import make_lime_case
from tests.support.soap import (
    CHOSEN,
    LAB,
    NOON,
    OIL_DENSITY,
    STUDENTS,
    answer_rightly,
    make_attempts,
    make_hand_in,
    name_sheet,
)
from workbook.labfile.course import MarkScheme
from workbook.marking.gather import Accepted
from workbook.marking.lateness import Deadline
from workbook.marking.mark import Rules, mark_all, mark_sheet
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Filling,
    Placed,
    Typed,
)
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case
    from workbook.marking.result import SheetMark, StepMark
    from workbook.solver.source import CourseSource

#: 4 readings of 1, 7 numbers of 2, 6 chains and 1 algebra of 3, 4 choices of 1; a
#: table of reagents of 4, 3 matchings of 2, an order of 2, a mechanism of 3, a
#: prediction of 1.
ALL = Decimal(43 + 16)

#: The same with 2 texts of 2, which earn nothing before a person reads them.
WORTH = ALL + 4

TEXTS = "For a person: up to 4 more (observations, discussion)."


def mark(source: CourseSource, case: Case, answers: dict[str, Answer]) -> SheetMark:
    hand_in = make_hand_in(source, "a1", answers)
    return mark_sheet(
        Accepted("a1.handin.json", hand_in, ""), case, Rules(MarkScheme())
    )


def find(marks: SheetMark, step: str) -> StepMark:
    return next(each for each in marks.steps if each.step == step)


def test_a_sheet_that_is_all_right_earns_everything(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    marks = mark(source, case, answers)
    assert (marks.points, marks.out_of) == (ALL, WORTH)
    assert marks.taken_off == 0
    assert marks.remark == TEXTS
    assert {each.outcome for each in marks.steps} == {
        Outcome.RIGHT,
        Outcome.COMMITTED,
        Outcome.KEPT,
    }


def test_an_empty_sheet_earns_nothing_and_lists_every_step(
    source: CourseSource, case: Case
) -> None:
    marks = mark(source, case, {})
    assert (marks.points, marks.out_of) == (Decimal(0), WORTH)
    assert {each.outcome for each in marks.steps} == {Outcome.BLANK}
    assert len(marks.steps) == 31


def test_an_early_mistake_costs_its_own_step_and_no_other(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    # The tare is taken off the wrong way round by hand: 2 points are lost, and
    # the percent yield follows from the mass that the student has.
    soap_g, yield_g = 5.00, case.values["theoretical_yield"]
    wrong = {
        "soap_mass": Typed(f"{soap_g:.2f} g"),
        "percent_yield": Typed(f"{100 * soap_g / yield_g:.1f} %"),
    }
    marks = mark(source, case, answers | wrong)
    assert marks.points == ALL - 2
    assert find(marks, "soap_mass").outcome is Outcome.WRONG
    assert find(marks, "percent_yield").outcome is Outcome.FOLLOWS


def test_a_chain_upside_down_with_a_right_result_loses_the_method(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    # A chain is worth 3, and half of it is the method's.
    right = answers["oil_mass"]
    assert isinstance(right, Built)
    turned = Built((Placed("oil.density", turned=True),), right.text)
    marks = mark(source, case, answers | {"oil_mass": turned})
    assert marks.points == ALL - Decimal("1.5")
    assert find(marks, "oil_mass").reason.endswith("Method 0 of 1.5, value 1.5 of 1.5.")


def test_figures_cost_one_point_a_sheet_however_often_they_are_wrong(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    many = {
        step: Typed(f"{case.values[step]:.9f} {unit}")
        for step, unit in (("lye_amount", "mol"), ("theoretical_yield", "g"))
    }
    marks = mark(source, case, answers | many)
    assert (marks.points, marks.taken_off) == (ALL - 1, Decimal(1))
    figures = "Figures: 1 off, once (lye_amount, theoretical_yield)."
    assert marks.remark == f"{figures} {TEXTS}"


def test_units_left_out_cost_one_point_a_sheet(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    bare = {}
    for step in ("dish", "dish_and_soap", "soap_mass"):
        answer = answers[step]
        assert isinstance(answer, Typed)
        bare[step] = Typed(answer.text.removesuffix(" g"))
    marks = mark(source, case, answers | bare)
    assert (marks.points, marks.taken_off) == (ALL - 1, Decimal(1))
    assert marks.remark.startswith("Unit left out: 1 off, once (dish, dish_and_soap,")


def test_a_sheet_never_falls_below_nothing(source: CourseSource, case: Case) -> None:
    # One reading is worth 1; its unit and its digits would take off 2.
    digits = Typed(f"{case.values['dish']:.4f}")
    marks = mark(source, case, {"dish": digits})
    assert (marks.points, marks.taken_off) == (Decimal(0), Decimal(1))


def test_a_step_mark_tells_what_was_typed_and_how_it_was_read(
    source: CourseSource, case: Case
) -> None:
    marks = mark(source, case, {"dish": Typed(f"{case.values['dish']:.2f}g")})
    found = find(marks, "dish")
    assert found.typed == f"{case.values['dish']:.2f}g"
    assert found.read_as.endswith("g, 4 figures")


def test_a_step_mark_keeps_the_answer_and_what_the_judge_says(
    source: CourseSource, case: Case
) -> None:
    answer = Typed(f"{case.values['dish']:.2f} g")
    marks = mark(source, case, {"dish": answer})
    assert find(marks, "dish").answer == answer
    assert find(marks, "dish").verdict.outcome is Outcome.RIGHT
    assert find(marks, "oil_mass").answer is None
    assert find(marks, "oil_mass").verdict.outcome is Outcome.BLANK


def test_the_gatherers_remark_is_kept(source: CourseSource, case: Case) -> None:
    hand_in = make_hand_in(source, "a1", {})
    marks = mark_sheet(
        Accepted("x", hand_in, "It has no seal."), case, Rules(MarkScheme())
    )
    assert (marks.file, marks.remark) == ("x", "It has no seal.")


def test_a_class_is_marked_each_from_their_own_values(source: CourseSource) -> None:
    accepted = [
        Accepted(student, make_hand_in(source, student, right), "")
        for student in STUDENTS
        for right in [answer_rightly(source.case(name_sheet(student)))]
    ]
    marks = list(mark_all(source, accepted))
    assert [each.student for each in marks] == list(STUDENTS)
    assert [each.points for each in marks] == [ALL, ALL, ALL]
    assert {each.lab for each in marks} == {LAB}


def test_readings_of_another_student_are_wrong(source: CourseSource) -> None:
    other = answer_rightly(source.case(name_sheet("b2")))
    (mine,) = source.cases(LAB, ["a1"])
    marks = mark(source, mine, other)
    readings = ("oil_volume", "lye_volume", "dish", "dish_and_soap")
    # By chance one of them can be what a misjudged division leads to.
    outcomes = {find(marks, step).outcome for step in readings}
    assert outcomes <= {Outcome.WRONG, Outcome.SLIP}
    assert not any(find(marks, step).verdict.value_holds for step in readings)


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os').system('true')",
        "9" * 100_000 + " g",
        "1e999999999 g",
        "(" * 10_000,
        "<script>alert(1)</script>",
        "\x00\x1b[2J",
        "1 " + "g·" * 10_000,
    ],
)
def test_a_hostile_text_is_judged_in_no_time_and_earns_nothing(
    source: CourseSource, case: Case, answers: dict[str, Answer], text: str
) -> None:
    hostile = {step: _put(answer, text) for step, answer in answers.items()}
    marks = mark(source, case, hostile)
    earning = {each.step for each in marks.steps if each.points}
    ticked = {"lye_statements", "splash", "brine_waste", "limiting"}
    assert earning == ticked | set(CHOSEN)


def _put(answer: Answer, text: str) -> Answer:
    """Return an answer of the same kind with another text."""
    put = answer
    match answer:
        case Typed():
            put = Typed(text)
        case Built(factors=factors):
            put = Built(factors, text)
        case Derived():
            put = Derived((text,), text)
        case Filled(cells=cells, limiting=limiting):
            hostile = tuple(Filling(cell.row, cell.column, text) for cell in cells)
            put = Filled(hostile, limiting)
    return put


def test_a_text_earns_nothing_yet_and_is_told_to_a_person(
    source: CourseSource, tmp_path: Path
) -> None:
    hand_in = make_hand_in(
        source,
        "a1",
        {"smell": Chosen(("sour",)), "observations": Typed("It cleared.")},
    )
    accepted = Accepted("a1.handin.json", hand_in, "")
    marks = mark_sheet(accepted, make_lime_case(tmp_path), Rules(MarkScheme()))
    prediction, text = find(marks, "smell"), find(marks, "observations")
    assert prediction.points == prediction.out_of == Decimal(1)
    assert (text.points, text.out_of) == (Decimal(0), Decimal(2))
    assert text.outcome.value == "for a person"
    assert marks.remark == "For a person: up to 2 more (observations)."


def test_a_third_attempt_costs_its_share_and_says_so(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    # Two attempts are free, and each further takes a quarter: of 2 points, 0.5.
    table = {"postlab": {"free": 2, "takes": "0.25"}}
    scheme = MarkScheme.model_validate({"attempts": table})
    given = (Typed("1.11 g"), Typed("2.22 g"), answers["soap_mass"])
    tried = make_hand_in(source, "a1", {})
    attempts = make_attempts(("soap_mass", answer) for answer in given)
    hand_in = replace(tried, attempts=attempts)
    found = find(
        mark_sheet(Accepted("x", hand_in, ""), case, Rules(scheme)), "soap_mass"
    )
    assert (found.attempts, found.points) == (3, Decimal("1.5"))
    assert found.reason.endswith("Attempt 3: 0.5 off.")


def test_late_work_loses_of_the_total_and_of_no_step(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    late = {"rule": "share a day", "takes": "0.10"}
    scheme = MarkScheme.model_validate({"late": late})
    hand_in = make_hand_in(source, "a1", answers)
    rules = Rules(scheme, Deadline(hand_in.at - timedelta(hours=1)))
    marks = mark_sheet(Accepted("x", hand_in, ""), case, rules)
    # 10 % of 59, once.
    assert (marks.late_off, marks.points) == (Decimal("5.9"), Decimal("53.1"))
    assert sum(step.points for step in marks.steps) == ALL


def test_the_time_that_somebody_else_recorded_is_the_one_that_counts(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    scheme = MarkScheme.model_validate({"late": {"rule": "all"}})
    hand_in = make_hand_in(source, "a1", answers)
    rules = Rules(scheme, Deadline(hand_in.at))
    later = hand_in.at + timedelta(hours=1)
    marks = mark_sheet(Accepted("x", hand_in, "", later), case, rules)
    assert (marks.points, marks.handed_in) == (Decimal(0), later)


def test_the_time_of_a_hand_in_is_told_as_the_course_tells_times(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    # NOON is 12:00 UTC on 2 March; Paris is an hour ahead in winter.
    rules = Rules(MarkScheme(), zone=ZoneInfo("Europe/Paris"))
    accepted = Accepted("x", make_hand_in(source, "a1", answers), "", NOON)
    handed_in = mark_sheet(accepted, case, rules).handed_in
    assert handed_in is not None
    assert handed_in.isoformat() == "2026-03-02T13:00:00+01:00"


def test_answers_from_before_the_lab_opened_are_told_and_cost_nothing(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    # Attempts are a minute apart from noon on, and the third is at two past.
    hand_in = make_hand_in(source, "a1", answers)
    rules = Rules(MarkScheme(), Deadline(opens=NOON + timedelta(minutes=2)))
    marks = mark_sheet(Accepted("x", hand_in, ""), case, rules)
    assert marks.points == ALL
    assert marks.notes == ("2 answers were given before the lab opened.",)
    assert "opened" not in marks.remark


def test_a_recognised_slip_earns_the_share_of_its_kind(
    source: CourseSource, case: Case, answers: dict[str, Answer]
) -> None:
    # A volume over its density in place of times: of 3 points for the chain half is the
    # value's, 1.5, and of that the slip earns a fifth, 0.3; the method stands as built.
    credit = {"slips": {"density_upside_down": "0.2", "density_twice": "0.9"}}
    scheme = MarkScheme.model_validate({"credit": credit})
    right = answers["oil_mass"]
    assert isinstance(right, Built)
    wrong = Built(right.factors, f"{case.values['oil_volume'] / OIL_DENSITY:#.3g} g")
    hand_in = make_hand_in(source, "a1", answers | {"oil_mass": wrong})
    marks = mark_sheet(Accepted("x", hand_in, ""), case, Rules(scheme))
    found = find(marks, "oil_mass")
    assert (found.outcome, found.points) == (Outcome.SLIP, Decimal("1.8"))
