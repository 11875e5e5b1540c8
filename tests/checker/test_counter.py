"""What a caller is answered: their own sheet, by the record alone."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.support.caller import A1, ADA, BEN, DAY, KEY, Clock, ask_of, try_step
from tests.support.recorded import list_attempts
from tests.support.soap import COURSE, LAB, NOON, STUDENTS, make_course
from workbook.checker.counter import MOST_IN_ANSWER, Counter, serve_course
from workbook.judge.judge import judge_sheet
from workbook.solver.source import CourseSource
from workbook.wire.answer import Answer, Built, Typed
from workbook.wire.message import (
    ExplainStep,
    Held,
    JudgeAttempt,
    Judged,
    Opened,
    OpenSheet,
    Passed,
    PassGate,
    Question,
    Refused,
    Sealed,
    SealHandIn,
    Statement,
    Why,
)
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.checker.record import AttemptRecord
    from workbook.solver.desk import Desk

DIGEST = "ab" * 32


def why(statement: Statement) -> Why:
    """Return why a question was refused."""
    assert isinstance(statement, Refused)
    return statement.why


def outcome(statement: Statement) -> Outcome:
    """Return the outcome of a verdict."""
    assert isinstance(statement, Judged)
    return statement.verdict.outcome


def test_an_own_sheet_is_opened(counter: Counter, source: CourseSource) -> None:
    assert counter.answer(ADA, OpenSheet(A1)) == Opened(source.sheet(A1))


@pytest.mark.parametrize(
    "question",
    [
        OpenSheet(A1),
        ask_of("dish", "1.00 g"),
        SealHandIn(A1, DIGEST),
        PassGate(A1),
        ExplainStep(A1, "dish", Typed("1.00 g")),
    ],
    ids=lambda question: type(question).__name__,
)
def test_anothers_sheet_is_refused_and_nothing_recorded(
    counter: Counter, record: AttemptRecord, question: Question
) -> None:
    assert why(counter.answer(BEN, question)) is Why.CALLER
    assert record.tries(A1) == ()
    assert record.hand_ins(COURSE, LAB) == {}


def test_the_verdicts_are_those_of_marking(
    counter: Counter, source: CourseSource, answers: dict[str, Answer]
) -> None:
    said = {}
    for step, answer in answers.items():
        statement = counter.answer(ADA, ask_of(step, answer))
        assert isinstance(statement, Judged)
        said[step] = statement.verdict
    case = source.cases(LAB, STUDENTS)[0]
    assert said == judge_sheet(case, answers)


def test_an_attempt_is_recorded_before_it_is_judged(
    source: CourseSource, record: AttemptRecord, clock: Clock
) -> None:
    class CrashingDesk:
        def list_steps(self, _: object) -> frozenset[str]:
            return frozenset({"dish"})

        def answer(self, _: object) -> Statement:
            raise MemoryError

    counter = Counter(CrashingDesk(), record, {}, clock)  # type: ignore[arg-type]
    with pytest.raises(MemoryError):
        counter.answer(ADA, ask_of("dish", "1.00 g", "x"))
    (tried,) = record.tries(A1)
    assert (tried.id, tried.outcome, tried.received) == ("x", None, NOON)
    # The next process works out what was lost.
    whole = serve_course(source, record, clock)
    whole.answer(ADA, ask_of("oil_volume", "11.9 mL"))
    assert record.tries(A1)[0].outcome is Outcome.WRONG


def follow(answers: dict[str, Answer]) -> tuple[Answer, JudgeAttempt]:
    """Return a wrong mass of oil, and the question about what follows from it."""
    mass, amount = answers["oil_mass"], answers["oil_amount"]
    assert isinstance(mass, Built)
    assert isinstance(amount, Built)
    # 9.99 g / 885.453 g/mol = 0.011282 mol: CIAAW 2021 abridged, C57H104O6.
    question = ask_of("oil_amount", replace(amount, text="0.01128 mol"))
    return replace(mass, text="9.99 g"), question


def test_what_a_question_says_of_other_answers_is_not_believed(
    counter: Counter, desk: Desk, answers: dict[str, Answer]
) -> None:
    mass, question = follow(answers)
    told = replace(question, standing={"oil_mass": mass})
    assert outcome(desk.answer(told)) is Outcome.FOLLOWS
    assert outcome(counter.answer(ADA, told)) is Outcome.WRONG


def test_what_was_recorded_is_what_later_steps_rest_on(
    counter: Counter, answers: dict[str, Answer]
) -> None:
    mass, question = follow(answers)
    counter.answer(ADA, ask_of("oil_mass", mass))
    assert outcome(counter.answer(ADA, question)) is Outcome.FOLLOWS


def test_what_was_no_attempt_leaves_the_one_before_standing(
    counter: Counter, answers: dict[str, Answer]
) -> None:
    mass, question = follow(answers)
    counter.answer(ADA, ask_of("oil_mass", mass))
    counter.answer(ADA, ask_of("oil_mass", replace(mass, text="?")))
    assert outcome(counter.answer(ADA, question)) is Outcome.FOLLOWS


def test_a_gate_is_not_opened_by_answers_that_were_never_sent(
    counter: Counter, answers: dict[str, Answer]
) -> None:
    probe = PassGate(A1, answers)
    assert isinstance(counter.answer(ADA, probe), Held)
    for step, answer in answers.items():
        counter.answer(ADA, ask_of(step, answer))
    assert isinstance(counter.answer(ADA, PassGate(A1)), Passed)


def test_a_step_takes_its_attempts_and_no_more(
    counter: Counter, record: AttemptRecord
) -> None:
    first = ask_of("dish", "1.00 g")
    counter.answer(ADA, first)
    counter.answer(ADA, ask_of("dish", "2.00 g"))
    assert why(counter.answer(ADA, ask_of("dish", "3.00 g"))) is Why.ATTEMPTS
    assert outcome(counter.answer(ADA, first)) is Outcome.WRONG
    assert len(record.tries(A1)) == 2


def test_what_cannot_be_read_takes_no_attempt(counter: Counter) -> None:
    for text in ("?", "", "1,234 g", "one"):
        said = counter.answer(ADA, ask_of("dish", text))
        assert outcome(said) in NO_ATTEMPT
    counter.answer(ADA, ask_of("dish", "1.00 g"))
    assert outcome(counter.answer(ADA, ask_of("dish", "2.00 g"))) is Outcome.WRONG


def test_an_attempt_that_was_never_judged_is_judged_before_it_is_counted(
    counter: Counter, record: AttemptRecord
) -> None:
    for name in ("x", "y"):
        record.take(A1, try_step("dish", f"{name}{name} g", name), most=2)
    assert outcome(counter.answer(ADA, ask_of("dish", "1.00 g"))) is Outcome.WRONG
    said = [each.outcome for each in record.tries(A1)]
    assert said == [Outcome.UNREAD, Outcome.UNREAD, Outcome.WRONG]


@pytest.mark.parametrize("name", ["", "a b", "x" * 65, "\x00", "../x", "é"])
def test_an_attempt_without_a_plain_id_is_refused(
    counter: Counter, record: AttemptRecord, name: str
) -> None:
    question = replace(ask_of("dish", "1.00 g"), attempt=name)
    assert why(counter.answer(ADA, question)) is Why.REQUEST
    assert record.tries(A1) == ()


@pytest.mark.parametrize(
    ("question", "reason"),
    [
        (ask_of("recovery", "0.8"), Why.STEP),
        (ask_of("dish", "1" * MOST_IN_ANSWER), Why.SIZE),
        (replace(ask_of("dish", "1 g"), sheet=replace(A1, revision=2)), Why.REVISION),
        (SealHandIn(replace(A1, revision=2), DIGEST), Why.REVISION),
        (SealHandIn(A1, "ab\x00"), Why.REQUEST),
        (SealHandIn(A1, DIGEST.upper()), Why.REQUEST),
        (PassGate(replace(A1, revision=2)), Why.REVISION),
        (OpenSheet(None), Why.PRACTICE),
        (ExplainStep(A1, "dish", Typed("1.00 g")), Why.PRACTICE),
    ],
)
def test_what_is_no_question_of_this_course_is_refused_and_not_recorded(
    counter: Counter, record: AttemptRecord, question: Question, reason: Why
) -> None:
    assert why(counter.answer(ADA, question)) is reason
    assert list_attempts(record, COURSE, LAB) == {}
    assert record.hand_ins(COURSE, LAB) == {}


def test_another_answer_under_the_same_id_is_not_judged(counter: Counter) -> None:
    counter.answer(ADA, ask_of("dish", "1.00 g", "x"))
    assert why(counter.answer(ADA, ask_of("dish", "2.00 g", "x"))) is Why.REPLAY


def test_a_hand_in_is_sealed_with_the_time_at_which_it_came_first(
    counter: Counter, clock: Clock
) -> None:
    sealed = Sealed(KEY.seal("hand-in", COURSE, LAB, "1", "a1", DIGEST), NOON)
    assert counter.answer(ADA, SealHandIn(A1, DIGEST)) == sealed
    clock.now += DAY
    assert counter.answer(ADA, SealHandIn(A1, DIGEST)) == sealed


def test_the_time_of_an_attempt_is_the_services(
    counter: Counter, record: AttemptRecord, clock: Clock
) -> None:
    clock.now = NOON + timedelta(hours=3)
    counter.answer(ADA, ask_of("dish", "1.00 g"))
    assert record.tries(A1)[0].received == clock.now


def test_the_limits_are_those_of_the_course_file(
    record: AttemptRecord, clock: Clock, tmp_path: Path
) -> None:
    path = make_course(tmp_path)
    limit = f"[marks.attempts.steps.{LAB}]\ndish = 1\n"
    path.write_text(path.read_text(encoding="utf-8") + limit, encoding="utf-8")
    counter = serve_course(CourseSource(path), record, clock)
    assert outcome(counter.answer(ADA, ask_of("dish", "1.00 g"))) is Outcome.WRONG
    assert why(counter.answer(ADA, ask_of("dish", "2.00 g"))) is Why.ATTEMPTS
