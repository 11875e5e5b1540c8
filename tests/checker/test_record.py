"""The record: nothing lost, nothing counted twice, in the order of receiving."""

from __future__ import annotations

import threading
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.support.caller import A1, B2, try_step
from tests.support.recorded import list_attempts
from tests.support.soap import COURSE, LAB, NOON
from workbook.checker import limit
from workbook.checker.database import Database
from workbook.checker.progress import Progress
from workbook.checker.record import AttemptRecord, open_record
from workbook.checker.tried import Taken
from workbook.checker.upgrade import upgrade
from workbook.errors import CheckerRefusedError, TaskError
from workbook.wire.answer import Chosen
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from workbook.wire.handin import Attempt


@pytest.fixture
def replicas(address: str) -> Iterator[list[AttemptRecord]]:
    """Return the record in a database of each kind, as three replicas have it."""
    databases = [Database(address) for _ in range(3)]
    upgrade(databases[0])
    opened = [AttemptRecord(each) for each in databases]
    yield opened
    for each in opened:
        each.close()


@pytest.fixture
def record(replicas: list[AttemptRecord]) -> AttemptRecord:
    return replicas[0]


LATER = NOON + timedelta(minutes=5)


def refused(act: Callable[[], object]) -> str:
    """Return the code of a refusal."""
    with pytest.raises(CheckerRefusedError) as caught:
        act()
    return caught.value.code


def test_an_attempt_that_was_taken_is_there_for_whoever_opens_the_record(
    record: AttemptRecord, address: str
) -> None:
    attempt = try_step("dish", "45.12 g \N{BLACK SUN WITH RAYS}\x00")
    record.take(A1, attempt)
    other = open_record(address)
    assert list_attempts(other, COURSE, LAB) == {A1: (attempt,)}
    other.close()


def test_a_retry_counts_once(record: AttemptRecord) -> None:
    attempt = try_step("dish", "45.12 g")
    record.take(A1, attempt)
    again = record.take(A1, replace(attempt, at=LATER))
    assert [each.to_attempt() for each in again] == [attempt]


def race(*acts: Callable[[], object]) -> None:
    """Let several threads act at once."""
    threads = [threading.Thread(target=act) for act in acts]
    for each in threads:
        each.start()
    for each in threads:
        each.join()


def test_retries_that_race_count_once(replicas: list[AttemptRecord]) -> None:
    attempt = try_step("dish", "45.12 g")
    race(*(lambda each=each: each.take(A1, attempt) for each in replicas * 4))
    assert list_attempts(replicas[0], COURSE, LAB) == {A1: (attempt,)}


def test_attempts_that_race_do_not_pass_the_limit(
    replicas: list[AttemptRecord],
) -> None:
    codes: list[str] = []

    def attempt(replica: AttemptRecord, text: str) -> None:
        try:
            replica.take(A1, try_step("dish", text), most=2)
        except CheckerRefusedError as error:
            codes.append(error.code)

    race(
        *(
            lambda number=number: attempt(replicas[number % 3], f"{number} g")
            for number in range(12)
        )
    )
    assert codes == ["attempts"] * 10
    assert len(replicas[0].tries(A1)) == 2


@pytest.mark.parametrize(
    "other", [try_step("dish", "45.13 g", "x"), try_step("oil_mass", "45.12 g", "x")]
)
def test_another_answer_under_the_same_id_is_refused(
    record: AttemptRecord, other: Attempt
) -> None:
    record.take(A1, try_step("dish", "45.12 g", "x"))
    assert refused(lambda: record.take(A1, other)) == "replay"
    assert len(record.tries(A1)) == 1


def test_two_students_may_use_the_same_id(record: AttemptRecord) -> None:
    record.take(A1, try_step("dish", "1.00 g", "x"))
    record.take(B2, try_step("dish", "2.00 g", "x"))
    assert [each.id for each in record.tries(B2)] == ["x"]


def test_what_was_said_of_an_attempt_is_kept(record: AttemptRecord) -> None:
    record.take(A1, try_step("dish", "1.00 g", "x"))
    record.take(A1, try_step("dish", "?", "y"))
    record.note(A1, "x", Outcome.WRONG)
    assert [each.outcome for each in record.tries(A1)] == [Outcome.WRONG, None]


def test_what_cannot_be_read_does_not_use_up_the_limit(record: AttemptRecord) -> None:
    for number in range(5):
        record.take(A1, try_step("dish", f"{number}?", str(number)), most=1)
        record.note(A1, str(number), Outcome.UNREAD)
    record.take(A1, try_step("dish", "45.12 g", "x"), most=1)
    record.note(A1, "x", Outcome.WRONG)
    further = try_step("dish", "45.13 g")
    assert refused(lambda: record.take(A1, further, most=1)) == "attempts"


def test_an_attempt_within_the_limit_may_be_asked_about_again(
    record: AttemptRecord,
) -> None:
    attempt = try_step("dish", "45.12 g", "x")
    record.take(A1, attempt, most=1)
    record.note(A1, "x", Outcome.WRONG)
    assert len(record.take(A1, attempt, most=1)) == 1


def test_no_step_takes_more_than_a_day_does(
    record: AttemptRecord, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limit, "MOST_A_DAY", 3)
    for number in range(3):
        record.take(A1, try_step("dish", "?", str(number)))
    assert refused(lambda: record.take(A1, try_step("dish", "1 g"))) == "rate"
    record.take(A1, try_step("oil_mass", "1 g"))
    record.take(A1, try_step("dish", "1 g", at=NOON + timedelta(days=1)))


def test_a_hand_in_keeps_the_time_at_which_it_came_first(
    record: AttemptRecord,
) -> None:
    assert record.take_hand_in(A1, "ab", NOON) == NOON
    assert record.take_hand_in(A1, "cd", LATER) == LATER
    assert record.take_hand_in(A1, "ab", LATER) == NOON
    assert record.hand_ins(COURSE, LAB) == {A1: (Taken("ab", NOON), Taken("cd", LATER))}


def test_attempts_stand_in_the_order_of_receiving(record: AttemptRecord) -> None:
    # The service's clock was set back between the two.
    first, second = try_step("dish", "1 g", at=LATER), try_step("dish", "2 g", at=NOON)
    record.take(A1, first)
    record.take(A1, second)
    assert list_attempts(record, COURSE, LAB) == {A1: (first, second)}


def test_only_what_is_asked_for_is_given(record: AttemptRecord) -> None:
    record.take(A1, try_step("dish", Chosen(("a",))))
    assert list_attempts(record, "other", LAB) == {}
    assert list_attempts(record, COURSE, "other") == {}
    assert record.hand_ins(COURSE, LAB) == {}
    assert record.tries(replace(A1, revision=2)) == ()


def test_progress_tells_how_far_each_student_is(record: AttemptRecord) -> None:
    for name, outcome in (("x", Outcome.WRONG), ("y", Outcome.UNREAD), ("z", None)):
        record.take(A1, try_step("dish", f"{name} g", name, at=LATER))
        if outcome:
            record.note(A1, name, outcome)
    record.take(B2, try_step("dish", "?", "x"))
    record.note(B2, "x", Outcome.UNREAD)
    # What can't be read is no attempt; the last one waits for its verdict.
    assert record.progress(COURSE, LAB) == (Progress(A1, "dish", 2, None, LATER),)


def test_a_database_without_a_record_is_refused(tmp_path: Path) -> None:
    address = f"sqlite:///{tmp_path / 'r.sqlite'}"
    Database(address).close()
    with pytest.raises(TaskError, match="holds no record"):
        open_record(address)
