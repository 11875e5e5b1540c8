"""Giving one student more time for a lab."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, NOON, make_course
from workbook.errors import TaskError
from workbook.issuing.extension import Wish, extend_due, locate_extensions, read_due
from workbook.labfile.course import read_course
from workbook.labfile.enrolment import read_students

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.course import Course

DATES = f'zone = "Europe/London"\n[dates.{LAB}]\ndue = 2026-10-12T17:00:00\n'
WISH = Wish("a1", LAB, "2026-10-14 17:00", " ill;\n seen ")


@pytest.fixture
def course(tmp_path: Path) -> Course:
    path = make_course(tmp_path)
    path.write_text(path.read_text("utf-8") + DATES, encoding="utf-8")
    return read_course(path)


def extend(course: Course, wish: Wish) -> None:
    extend_due(course, read_students(course.roster), wish, NOON)


def test_the_course_is_due_later_for_one_student(course: Course) -> None:
    extend(course, WISH)
    calendar = read_course(course.path).calendar
    # London is an hour ahead of UTC until 25 October 2026.
    assert calendar.due(LAB, "a1") == datetime(2026, 10, 14, 16, tzinfo=UTC)
    assert calendar.due(LAB, "b2") == datetime(2026, 10, 12, 16, tzinfo=UTC)
    assert calendar.extensions["a1", LAB].reason == "ill; seen"


def test_earlier_extensions_stay(course: Course) -> None:
    extend(course, WISH)
    extend(course, Wish("b2", LAB, "2026-10-20T09:00:00+02:00", "fair"))
    calendar = read_course(course.path).calendar
    assert {student for student, _ in calendar.extensions} == {"a1", "b2"}


def test_the_instructor_s_own_file_is_left_as_it_is(course: Course) -> None:
    before = course.path.read_bytes()
    extend(course, WISH)
    assert course.path.read_bytes() == before


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (Wish("a12", LAB, WISH.due, "ill"), "on the roster. Did you mean 'a1'"),
        (Wish("a1", "olive", WISH.due, "ill"), "no lab 'olive'"),
        (Wish("a1", LAB, "2026-10-12 17:00", "ill"), "for everybody at 2026-10-12"),
        (Wish("a1", LAB, WISH.due, " \n"), "Give a reason"),
        (Wish("a1", LAB, "Friday", "ill"), "'Friday' is no time"),
        (Wish("a1", LAB, "2026-10-14", "ill"), "is a day alone"),
        # Clocks in London are put back at 02:00 on 25 October 2026.
        (Wish("a1", LAB, "2026-10-25 01:30", "ill"), "comes twice"),
    ],
)
def test_what_can_t_be_so_is_refused_and_nothing_written(
    course: Course, wish: Wish, words: str
) -> None:
    with pytest.raises(TaskError, match=words):
        extend(course, wish)
    assert not locate_extensions(course).exists()


def test_a_lab_without_a_due_time_can_t_be_extended(tmp_path: Path) -> None:
    course = read_course(make_course(tmp_path))
    with pytest.raises(TaskError, match="no due time that could be extended"):
        extend(course, WISH)


def test_a_time_that_names_its_zone_keeps_it(course: Course) -> None:
    due = read_due("2026-10-25T01:30:00+01:00", course)
    assert due == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
