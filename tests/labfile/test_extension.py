"""Extensions that were given while a course runs: written by us, read with lines."""

from __future__ import annotations

import tomllib
from datetime import UTC, datetime, timedelta, timezone
from typing import TYPE_CHECKING

import pytest

from tests.labfile.test_calendar import DATES
from tests.labfile.test_course import write
from workbook.errors import AuthorError
from workbook.labfile.course import check_roster, read_course
from workbook.labfile.extension import (
    EXTENSION_FILE,
    Extension,
    encode_extensions,
    read_extensions,
)
from workbook.labfile.roster import Student

if TYPE_CHECKING:
    from pathlib import Path

AT = datetime(2026, 10, 11, 9, 30, tzinfo=UTC)
SUMMER = timezone(timedelta(hours=1))


def extend(student: str, day: int, reason: str = "ill") -> Extension:
    """Give more time for the soap, which is due on the 12th at 17:00."""
    due = datetime(2026, 10, day, 12, tzinfo=SUMMER)
    return Extension(student=student, lab="soap", due=due, reason=reason, at=AT)


@pytest.mark.parametrize(
    "reason", ["ill", 'said "later"\\', "Überschwemmung 🌊", "a\tb\x7f\x1f"]
)
def test_extensions_are_read_as_they_were_written(tmp_path: Path, reason: str) -> None:
    given = (extend("a1", 14, reason), extend("b2", 15))
    path = tmp_path / EXTENSION_FILE
    path.write_bytes(encode_extensions(given))
    assert read_extensions(path, ["soap"]) == given
    assert len(tomllib.loads(path.read_text("utf-8"))["extension"]) == 2


def test_a_course_without_the_file_has_none(tmp_path: Path) -> None:
    assert read_extensions(tmp_path / EXTENSION_FILE, ["soap"]) == ()


def test_the_last_one_counts_for_one_student_and_one_lab(tmp_path: Path) -> None:
    given = (extend("a1", 14), extend("a1", 16))
    (tmp_path / EXTENSION_FILE).write_bytes(encode_extensions(given))
    calendar = read_course(write(tmp_path, DATES)).calendar
    assert calendar.due("soap", "a1") == datetime(2026, 10, 16, 11, tzinfo=UTC)
    assert calendar.due("soap", "b2") == datetime(2026, 10, 12, 16, tzinfo=UTC)


def test_it_counts_beside_those_of_the_course_file(tmp_path: Path) -> None:
    (tmp_path / EXTENSION_FILE).write_bytes(encode_extensions([extend("a1", 14)]))
    text = (
        f'{DATES}[[extensions]]\nstudent = "b2"\nlab = "soap"\nreason = "ill"\n'
        "due = 2026-10-15T12:00:00\n"
    )
    calendar = read_course(write(tmp_path, text)).calendar
    assert calendar.due("soap", "a1") == datetime(2026, 10, 14, 11, tzinfo=UTC)
    assert calendar.due("soap", "b2") == datetime(2026, 10, 15, 11, tzinfo=UTC)


def test_one_that_ends_before_everybodys_time_takes_nothing_away(
    tmp_path: Path,
) -> None:
    (tmp_path / EXTENSION_FILE).write_bytes(encode_extensions([extend("a1", 10)]))
    calendar = read_course(write(tmp_path, DATES)).calendar
    assert calendar.due("soap", "a1") == calendar.due("soap")


def test_a_student_who_has_left_the_roster_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / EXTENSION_FILE).write_bytes(encode_extensions([extend("a1", 14)]))
    check_roster(read_course(write(tmp_path, DATES)), [Student("b2", "Ben")])


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("due ", "dew ", r"course\.extensions\.toml:8: .*'dew'"),
        ('"soap"', '"soup"', r"extensions\.toml:7: 'soup' is no lab .*mean 'soap'"),
        ("+01:00", "", r"course\.extensions\.toml:8:"),
    ],
)
def test_a_mistake_is_told_with_its_line(
    tmp_path: Path, old: str, new: str, words: str
) -> None:
    text = encode_extensions([extend("a1", 14)]).decode()
    head, table, rest = text.partition("[[extension]]")
    place = tmp_path / EXTENSION_FILE
    place.write_text(head + table + rest.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(AuthorError, match=words):
        read_course(write(tmp_path, DATES))
