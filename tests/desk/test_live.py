"""The card of a running course."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import pytest

from tests.support.recorded import make_record, name_record
from tests.support.soap import LAB, make_attempts, make_course, name_sheet
from workbook.desk import live, open_desk
from workbook.desk.live import LiveCard
from workbook.desk.work import Work
from workbook.errors import TaskError
from workbook.labfile.course import read_course
from workbook.labfile.roster import Student, read_roster
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.checker.record import AttemptRecord
    from workbook.front.look import Look

DUE = f"[dates.{LAB}]\ndue = 2026-10-12T17:00:00\n"


@pytest.fixture
def running(tmp_path: Path) -> Work:
    """Return a desk on a course that runs, and of which nothing was marked."""
    path = make_course(tmp_path)
    path.write_text(path.read_text("utf-8") + DUE, encoding="utf-8")
    source = CourseSource(path)
    return Work(source, read_roster(source.course.roster), [], tmp_path)


@pytest.fixture
def record(tmp_path: Path) -> AttemptRecord:
    return make_record(tmp_path / "course.record.sqlite")


@pytest.fixture
def card(running: Work, look: Look, record: AttemptRecord) -> LiveCard:
    return LiveCard(running, look, record)


def answer(record: AttemptRecord, student: str) -> None:
    (attempt,) = make_attempts([("dish", Typed("45.05 g"))])
    record.take(name_sheet(student), attempt)
    record.note(name_sheet(student), attempt.id, Outcome.RIGHT)


def test_the_table_shows_what_the_record_holds_now(
    card: LiveCard, record: AttemptRecord
) -> None:
    assert "3 students: 0 have begun" in card.table.value
    answer(record, "b2")
    card.look_again()
    assert "3 students: 1 have begun" in card.table.value
    assert ">agrees<" in card.table.value
    assert "As of " in card.says.value


def test_a_large_class_is_shown_party_by_party(
    running: Work, look: Look, record: AttemptRecord
) -> None:
    crowd = [Student(f"s{number:03}", "Ada") for number in range(120)]
    running.roster = crowd
    card = LiveCard(running, look, record)
    assert card.party in card.box.children
    answer(record, "s000")
    answer(record, "s119")
    card.party.index = 2
    assert "120 students: 2 have begun" in card.table.value
    # 120 are two parties of 50 and one of 20.
    assert card.table.value.count('scope="row"') == 20
    assert card.table.value.count(">agrees<") == 1
    assert card.student.value == "s100"


def test_a_small_class_has_nothing_to_choose_from(card: LiveCard) -> None:
    assert card.party not in card.box.children


def test_the_other_part_has_steps_of_its_own(card: LiveCard) -> None:
    assert "soap mass" in card.table.value
    card.part.value = "prelab"
    assert "soap mass" not in card.table.value
    assert "splash" in card.table.value


def test_a_gate_is_opened_for_the_student_that_is_chosen(
    card: LiveCard, running: Work
) -> None:
    card.student.value = "b2"
    card.open_gate()
    assert f"The gate of {LAB} is open now for b2." in card.says.value
    assert running.source.is_permitted(name_sheet("b2"))
    card.open_gate()
    assert "was open already" in card.says.value


def test_more_time_is_given_shown_and_kept(card: LiveCard, running: Work) -> None:
    assert card.table.value.count("12 Oct 17:00") == 3
    card.student.value = "b2"
    card.due.value, card.reason.value = "2026-10-14 09:00", "ill"
    card.give_time()
    assert f"{LAB} is due for b2 at 2026-10-14 09:00 UTC." in card.says.value
    assert card.table.value.count("14 Oct 09:00") == 1
    due = read_course(running.source.course.path).calendar.due(LAB, "b2")
    assert due is not None
    assert due.day == 14


def test_more_time_without_a_reason_is_refused_in_words(card: LiveCard) -> None:
    card.due.value = "2026-10-14 09:00"
    card.give_time()
    assert "Give a reason" in card.says.value


def test_a_database_that_is_gone_is_told_and_the_table_stays(
    card: LiveCard, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        msg = "The database can't be reached."
        raise TaskError(msg)

    before = card.table.value
    monkeypatch.setattr(live, "see_record", fail)
    card.look_again()
    assert "The database can&#x27;t be reached." in card.says.value
    assert card.table.value == before


def test_the_table_follows_the_record_by_itself(
    card: LiveCard, record: AttemptRecord, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live, "LOOK_S", 0.01)

    async def follow() -> None:
        is_new = asyncio.Event()
        card.table.observe(lambda _: is_new.set(), names="value")
        card.follow()
        answer(record, "a1")
        await asyncio.wait_for(is_new.wait(), 10)
        card.leave()

    asyncio.run(follow())
    assert "1 have begun" in card.table.value
    assert card.following is not None
    assert card.following.cancelled()


def test_without_a_record_nothing_is_followed_and_the_marks_are_shown(
    work: Work, look: Look
) -> None:
    async def follow() -> LiveCard:
        card = LiveCard(work, look, None)
        card.follow()
        return card

    card = asyncio.run(follow())
    assert card.following is None
    assert "3 students: 2 have begun" in card.table.value
    assert "No record of a service is known here" in card.says.value


def test_the_desk_finds_the_record_beside_the_course(
    running: Work, record: AttemptRecord
) -> None:
    answer(record, "c3")
    desk = open_desk(running.source.course.path)
    assert "1 have begun" in desk.live().table.value
    assert "Nothing waits." in desk.queue().says.value
    assert "Nobody handed anything in." in desk.survey().says.value
    assert desk.read()._repr_mimebundle_()["text/plain"] == "desk: read"
    assert "Nobody handed anything in." in desk.sheet().says.value
    desk.leave()


def test_the_desk_is_told_of_a_record_elsewhere(running: Work, tmp_path: Path) -> None:
    answer(make_record(tmp_path / "other.sqlite"), "c3")
    address = name_record(tmp_path / "other.sqlite")
    desk = open_desk(running.source.course.path, record=address)
    assert "1 have begun" in desk.live().table.value
    with pytest.raises(TaskError):
        open_desk(running.source.course.path, record=name_record(tmp_path / "no"))
