"""The desk: every question gets its statement, whatever way it came."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import msgspec
import pytest
from msgspec.structs import replace

from tests.support.kiln import READINGS
from tests.support.lab import KILN, make_lab
from tests.support.soap import answer_rightly, name_sheet
from workbook.errors import (
    AuthorError,
    CheckerRefusedError,
    DrawError,
    TaskError,
    WorkbookError,
)
from workbook.judge.judge import judge_sheet
from workbook.solver.desk import Desk, refuse
from workbook.solver.practice import PracticeSource
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Matched,
    Ordered,
    Typed,
)
from workbook.wire.message import (
    Explained,
    ExplainStep,
    Held,
    JudgeAttempt,
    Judged,
    Opened,
    OpenSheet,
    Passed,
    PassGate,
    Refused,
    Sealed,
    SealHandIn,
    Why,
)
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case
    from workbook.solver.source import CourseSource
    from workbook.wire.sheet import SheetId

A1 = name_sheet("a1")


def spoil(answer: Answer) -> Answer:
    """Return an answer of the same form that is wrong."""
    spoiled: Answer = Chosen(("none",))
    match answer:
        case Typed(text) | Built(_, text) | Derived(_, text):
            spoiled = replace(answer, text=f"7{text}")
        case Filled(cells):
            wrong = (replace(cell, text=f"7{cell.text}") for cell in cells)
            spoiled = Filled(tuple(wrong))
        case Matched(matches):
            nothing = (replace(each, options=("x",)) for each in matches)
            spoiled = Matched(tuple(nothing))
        case Ordered(cards):
            spoiled = Ordered(cards[::-1])
    return spoiled


@pytest.mark.parametrize("is_right", [True, False])
@pytest.mark.parametrize("crosses", [True, False])
def test_live_and_in_bulk_the_verdicts_are_the_same(
    desk: Desk, case: Case, *, is_right: bool, crosses: bool
) -> None:
    """Every step of the lab, over the border as JSON and without it."""
    answers = answer_rightly(case)
    if not is_right:
        answers = {step: spoil(answer) for step, answer in answers.items()}
    live = {}
    for step, answer in answers.items():
        others = {name: each for name, each in answers.items() if name != step}
        question = JudgeAttempt(A1, step, answer, others)
        if crosses:
            encoded = msgspec.json.encode(question)
            question = msgspec.json.decode(encoded, type=JudgeAttempt)
        statement = desk.answer(question)
        assert isinstance(statement, Judged)
        live[step] = statement.verdict
    assert live == judge_sheet(case, answers)
    expected = {Outcome.RIGHT} if is_right else {Outcome.WRONG}
    kept = {"observations", "discussion", "salting_out"}
    judged = {v.outcome for step, v in live.items() if step not in kept}
    assert judged <= expected | {Outcome.FOLLOWS}


def test_a_sheet_of_the_course_is_opened(desk: Desk, source: CourseSource) -> None:
    statement = desk.answer(OpenSheet(A1))
    assert statement == Opened(source.sheet(A1))


def test_a_course_makes_no_practice_sheet(desk: Desk) -> None:
    statement = desk.answer(OpenSheet(None))
    assert isinstance(statement, Refused)
    assert statement.why is Why.PRACTICE


def test_practice_opens_a_fresh_sheet_that_it_can_judge(
    practice: PracticeSource,
) -> None:
    desk = Desk(practice)
    statement = desk.answer(OpenSheet(None))
    assert isinstance(statement, Opened)
    sheet = statement.sheet.id
    right = answer_rightly(practice.case(sheet))["oil_mass"]
    judged = desk.answer(JudgeAttempt(sheet, "oil_mass", right))
    assert isinstance(judged, Judged)
    assert judged.verdict.outcome is Outcome.RIGHT


def test_a_course_never_gives_a_worked_answer(desk: Desk, case: Case) -> None:
    """Whatever was answered, and whatever the sheet calls itself."""
    for sheet in (A1, replace(A1, course="practice-0"), replace(A1, student="x")):
        for step, answer in answer_rightly(case).items():
            statement = desk.answer(ExplainStep(sheet, step, answer))
            assert isinstance(statement, Refused)
            assert statement.why is Why.PRACTICE
            assert not any(sign.isdigit() for sign in statement.reason)


def test_practice_gives_a_worked_answer_after_an_attempt(
    practice: PracticeSource,
) -> None:
    desk, sheet = Desk(practice), practice.fresh()
    wrong = desk.answer(ExplainStep(sheet, "dish", Typed("1.00 g")))
    assert isinstance(wrong, Explained)
    shown = f"{practice.case(sheet).values['dish']:.2f} g"
    assert [line.words for line in wrong.lines] == [f"The instrument shows {shown}."]


@pytest.mark.parametrize("text", ["", "much", "1,500 g"])
def test_practice_gives_none_before_an_attempt(
    practice: PracticeSource, text: str
) -> None:
    statement = Desk(practice).answer(
        ExplainStep(practice.fresh(), "dish", Typed(text))
    )
    assert isinstance(statement, Refused)
    assert statement.why is Why.ATTEMPT


def test_a_step_that_is_not_there_has_no_worked_answer(
    practice: PracticeSource,
) -> None:
    question = ExplainStep(practice.fresh(), "recovery", Typed("0.8"))
    statement = Desk(practice).answer(question)
    assert isinstance(statement, Refused)
    assert statement.why is Why.STEP


def test_a_gate_lets_pass_who_answered_rightly_and_nobody_else(
    desk: Desk, case: Case, source: CourseSource
) -> None:
    right = answer_rightly(case)
    held = desk.answer(PassGate(A1, right | {"splash": Chosen(("wipe",))}))
    assert held == Held(("splash",))
    passed = desk.answer(PassGate(A1, right))
    assert passed == Passed(source.show_readings(A1, case))


def test_a_hand_in_is_sealed(desk: Desk, source: CourseSource) -> None:
    assert desk.answer(SealHandIn(A1, "ab")) == Sealed(source.seal(A1, "ab"))


@pytest.mark.parametrize(
    ("question", "why"),
    [
        (OpenSheet(replace(A1, course="x")), Why.COURSE),
        (OpenSheet(replace(A1, lab="x")), Why.COURSE),
        (OpenSheet(replace(A1, revision=7)), Why.REVISION),
        (OpenSheet(replace(A1, student="x")), Why.STUDENT),
        (JudgeAttempt(replace(A1, student="x"), "dish", Typed("1 g")), Why.STUDENT),
        (JudgeAttempt(A1, "recovery", Typed("0.8")), Why.STEP),
        (JudgeAttempt(A1, "", Typed("0.8")), Why.STEP),
        (SealHandIn(replace(A1, course="x"), "ab"), Why.COURSE),
        (SealHandIn(replace(A1, student="x"), "ab"), Why.STUDENT),
    ],
)
def test_what_can_not_be_answered_is_refused_with_its_reason(
    desk: Desk, question: OpenSheet | JudgeAttempt | SealHandIn, why: Why
) -> None:
    statement = desk.answer(question)
    assert isinstance(statement, Refused)
    assert statement.why is why
    assert statement.reason.endswith(".")


def test_the_answer_counts_and_not_an_older_one_of_the_same_step(
    desk: Desk, case: Case
) -> None:
    right = answer_rightly(case)["dish"]
    question = JudgeAttempt(A1, "dish", right, {"dish": Typed("1.00 g")})
    statement = desk.answer(question)
    assert isinstance(statement, Judged)
    assert statement.verdict.outcome is Outcome.RIGHT


@pytest.mark.parametrize(
    "error",
    [
        AuthorError(("lab.toml:7: is = 'oil_volume * oil.density' is wrong.",)),
        TaskError("/srv/course.key: the course key is not there."),
        DrawError("soap", "a1", 200, "'recovery' is off."),
    ],
)
def test_a_fault_of_the_files_is_not_quoted_to_a_student(
    error: WorkbookError, capsys: pytest.CaptureFixture[str]
) -> None:
    refused = refuse(error)
    assert refused.why is Why.LAB
    assert "Tell your instructor" in refused.reason
    assert not {"lab.toml", "course.key", "recovery"} & set(refused.reason.split())
    assert str(error) in capsys.readouterr().err


def test_a_refusal_is_passed_on_in_its_own_words() -> None:
    error = CheckerRefusedError(Why.STUDENT.value, "Not on the roster.")
    assert refuse(error) == Refused(Why.STUDENT, "Not on the roster.")


def test_a_worked_answer_is_made_of_the_students_own_readings(tmp_path: Path) -> None:
    make_lab(tmp_path, KILN)
    source = PracticeSource(tmp_path / "chalk-in-acid")
    desk, sheet = Desk(source), source.fresh()
    early = ExplainStep(sheet, "lime_mass", Typed("1.30 g"))
    assert isinstance(desk.answer(early), Refused)
    said = desk.answer(replace(early, standing=dict(READINGS)))
    assert isinstance(said, Explained)
    assert [line.words for line in said.lines][-2:] == [
        "= 25.80 g \N{MINUS SIGN} 24.50 g",
        "= 1.30 g",
    ]


def test_several_threads_get_the_verdicts_that_one_would(
    desk: Desk, case: Case
) -> None:
    answers = answer_rightly(case)
    found: dict[str, Outcome] = {}

    def ask(step: str) -> None:
        others = {name: each for name, each in answers.items() if name != step}
        said = desk.answer(JudgeAttempt(A1, step, answers[step], others))
        assert isinstance(said, Judged)
        found[step] = said.verdict.outcome

    steps = ("oil_mass", "oil_amount", "soap_mass", "dish", "percent_yield")
    threads = [threading.Thread(target=ask, args=(step,)) for step in steps]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert found == dict.fromkeys(steps, Outcome.RIGHT)


def test_cases_are_kept_without_filling_the_memory(
    source: CourseSource, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("workbook.solver.desk.MOST_CASES", 2)
    drawn: list[str] = []
    draw = source.case

    def note(sheet: SheetId) -> Case:
        drawn.append(sheet.student)
        return draw(sheet)

    monkeypatch.setattr(source, "case", note)
    desk = Desk(source)
    for student in ("a1", "a1", "b2", "c3", "c3", "a1"):
        desk.list_steps(name_sheet(student))
    assert drawn == ["a1", "b2", "c3", "a1"]


def test_the_steps_of_a_sheet_are_told(desk: Desk) -> None:
    assert {"dish", "oil_mass"} <= desk.list_steps(A1)
    assert "recovery" not in desk.list_steps(A1)


def test_a_mistake_is_told_to_whoever_listens(
    source: CourseSource, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: object) -> Case:
        msg = "lab.toml:3: a relation."
        raise TaskError(msg)

    monkeypatch.setattr(source, "case", fail)
    told: list[WorkbookError] = []
    statement = Desk(source, told.append).answer(OpenSheet(A1))
    assert isinstance(statement, Refused)
    assert "relation" not in statement.reason
    assert [str(each) for each in told] == ["lab.toml:3: a relation."]
