"""A course carried on to another year."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.support.command import run
from tests.support.soap import LAB, make_course
from workbook.labfile.course import read_course
from workbook.solver.source import CourseSource

MORE = f"""
# Due on a Monday.
[dates.{LAB}]
due = 2026-10-12T17:00:00
[[extensions]]
student = "a1"
lab = "{LAB}"
due = 2026-10-14T17:00:00
reason = "ill"
[[bottles]]
lab = "{LAB}"
of = "oil.density"
value = "0.920 g/mL"
source = "label"
"""


@pytest.fixture
def course(tmp_path: Path) -> Path:
    made = make_course(tmp_path)
    made.write_text(made.read_text(encoding="utf-8") + MORE, encoding="utf-8")
    return made


def test_dates_move_and_the_day_of_the_week_stays(course: Path) -> None:
    assert run("roll", course, "--to", "salt-2").exit_code == 0
    rolled = read_course(Path("salt-2/course.toml"))
    # 12 October 2026 and 11 October 2027 are both Mondays.
    assert rolled.calendar.due(LAB) == datetime(2027, 10, 11, 17, tzinfo=UTC)
    assert rolled.name == "salt-2"
    assert "# Due on a Monday." in Path("salt-2/course.toml").read_text()


def test_nothing_of_a_student_and_no_bottle_goes_along(course: Path) -> None:
    (course.parent / "course.overrides.csv").write_text("mine")
    run("roll", course, "--to", "salt-2")
    rolled = read_course(Path("salt-2/course.toml"))
    assert (rolled.calendar.extensions, rolled.bottles) == ({}, ())
    assert Path("salt-2/roster.csv").read_text() == "student,name,section\n"
    assert not Path("salt-2/course.overrides.csv").exists()


def test_everybody_has_other_values_with_the_new_key(course: Path) -> None:
    roster = course.parent / "roster.csv"
    run("roll", course, "--to", "salt-2", "--roster", roster)
    before = CourseSource(course).cases(LAB, ["a1"])[0].values
    after = CourseSource(Path("salt-2/course.toml")).cases(LAB, ["a1"])[0].values
    assert (
        before["oil_volume"] != after["oil_volume"] or before["dish"] != after["dish"]
    )
    key = Path("salt-2/course.key").read_bytes()
    assert key != (course.parent / "course.key").read_bytes()


@pytest.mark.parametrize("name", ["salt-1", "salt & soap"])
def test_a_name_that_can_not_be_is_told(course: Path, name: str) -> None:
    result = run("roll", course, "--to", f"new/{name}")
    assert result.exit_code == 2
    assert not Path("new").exists()
