"""Dates of a course, with time zones, extensions and the turning of clocks."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from tests.labfile.test_course import LEAST, find, write
from workbook.labfile.course import read_course

if TYPE_CHECKING:
    from pathlib import Path

HEAD = LEAST.replace('labs = ["soap"]', 'labs = ["soap", "salt"]')
ZONED = f'{HEAD}zone = "Europe/London"\n'
DATES = f"""{ZONED}
[dates.soap]
open = 2026-10-05T09:00:00
due = 2026-10-12T17:00:00
closed = 2026-11-02T09:00:00

[dates.salt]
due = 2026-10-26T17:00:00
"""


def test_a_time_is_one_of_the_courses_zone(tmp_path: Path) -> None:
    calendar = read_course(write(tmp_path, DATES)).calendar
    # Summer time ends on the last Sunday of October, the 25th in 2026: 17:00 in London
    # is 16:00 UTC before it and 17:00 after it. Directive 2000/84/EC; from memory.
    assert calendar.due("soap") == datetime(2026, 10, 12, 16, tzinfo=UTC)
    assert calendar.due("salt") == datetime(2026, 10, 26, 17, tzinfo=UTC)
    assert calendar.next_due("soap") == calendar.due("salt")
    assert calendar.next_due("salt") is None
    assert calendar.closed("soap") == datetime(2026, 11, 2, 9, tzinfo=UTC)
    assert calendar.opens("soap") == datetime(2026, 10, 5, 8, tzinfo=UTC)
    assert calendar.opens("salt") is None


def test_an_extension_is_for_one_student_and_one_lab(tmp_path: Path) -> None:
    text = (
        f'{DATES}[[extensions]]\nstudent = "a1"\nlab = "soap"\n'
        f'due = 2026-10-14T12:00:00+01:00\nreason = "ill"\n'
    )
    calendar = read_course(write(tmp_path, text)).calendar
    assert calendar.due("soap", "a1") == datetime(2026, 10, 14, 11, tzinfo=UTC)
    assert calendar.due("soap", "b2") == calendar.due("soap")
    assert calendar.due("salt", "a1") == calendar.due("salt")


def test_where_nothing_is_said_nothing_is_due(tmp_path: Path) -> None:
    calendar = read_course(write(tmp_path, LEAST)).calendar
    assert calendar.due("soap", "a1") is None
    assert calendar.closed("soap") is None


EXTENSION = '[[extensions]]\nstudent = "a1"\nreason = "ill"\n'


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ("[dates.soup]\ndue = 2026-10-12T17:00:00", "'soup' is no lab of this course."),
        ("[dates.soap]\ndue = 2026-10-12", "write a day with its time"),
        ('[dates.soap]\ndue = "12 October"', "write a day with its time"),
        (
            "[dates.soap]\nopen = 2026-10-12T17:00:00\ndue = 2026-10-12T17:00:00",
            "'soap' is due no later than open.",
        ),
        # Clocks go from 01:00 to 02:00 on 29 March 2026, and back on 25 October.
        (
            "[dates.soap]\ndue = 2026-03-29T01:30:00",
            "2026-03-29 01:30:00 is left out where clocks are put on.",
        ),
        (
            "[dates.soap]\ndue = 2026-10-25T01:30:00",
            "write it with its offset, like 2026-10-25T01:30:00+01:00.",
        ),
        (
            f'{EXTENSION}lab = "soap"\ndue = 2026-10-12T17:00:00',
            "'soap' has no due time that could be extended.",
        ),
        (
            f'{EXTENSION}lab = "soop"\ndue = 2026-10-12T17:00:00',
            "'soop' is no lab of this course. Did you mean 'soap'?",
        ),
    ],
)
def test_a_date_that_can_not_be_is_told(tmp_path: Path, table: str, said: str) -> None:
    (found,) = find(tmp_path, f"{ZONED}{table}\n")
    assert found.startswith("course.toml:")
    assert said in found


def test_an_extension_is_later_than_the_usual_time_and_stands_once(
    tmp_path: Path,
) -> None:
    more = f'{EXTENSION}lab = "soap"\ndue = 2026-10-12T17:00:00\n'
    found = find(tmp_path, f"{DATES}{more}{more.replace('12T', '13T')}")
    assert "ends no later than 2026-10-1" in found[0]
    assert "'a1' has an extension for 'soap' already" in found[-1]


def test_an_unknown_zone_is_told(tmp_path: Path) -> None:
    (found,) = find(tmp_path, f'{LEAST}zone = "London"\n')
    assert found.startswith("course.toml:6: ")
    assert "'London' is no time zone" in found
