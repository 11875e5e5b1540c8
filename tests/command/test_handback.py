"""``workbook mark``: a page for each student, and the tables of a record system."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.support.command import hand_in_all, rows, run
from tests.support.kiln import LAB as KILN
from tests.support.kiln import READINGS, RIGHT, make_kiln_course, write_kiln_hand_in
from tests.support.soap import LAB, make_course

if TYPE_CHECKING:
    from click.testing import Result


@pytest.fixture
def result(tmp_path: Path) -> Result:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1", "b2"])
    return run("mark", course, "--handins", "in", "--to", "marks")


def test_each_student_who_handed_in_has_a_page(result: Result) -> None:
    assert result.exit_code == 0
    pages = sorted(path.as_posix() for path in Path("marks/pages").rglob("*.html"))
    assert pages == [f"marks/pages/a1/{LAB}.html", f"marks/pages/b2/{LAB}.html"]


def test_a_name_from_the_roster_is_text_on_a_page(result: Result) -> None:
    assert result.exit_code == 0
    page = Path(f"marks/pages/a1/{LAB}.html").read_text(encoding="utf-8")
    assert "Ada &lt;Moss&gt;" in page
    assert "Ada <Moss>" not in page


def test_the_scores_of_the_record_system_are_those_of_the_marks(
    result: Result,
) -> None:
    assert result.exit_code == 0
    points = {row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))}
    results = rows(Path("marks/oneroster/results.csv"))
    assert {r["studentSourcedId"]: r["score"] for r in results} == points


def test_the_report_on_the_class_is_there(result: Result) -> None:
    assert result.exit_code == 0
    page = Path("marks/class.html").read_text(encoding="utf-8")
    assert "2 of 3 students handed in." in page


def test_worked_answers_follow_from_readings_of_the_students_own_bench(
    tmp_path: Path,
) -> None:
    course = make_kiln_course(tmp_path)
    write_kiln_hand_in(course, "k1", [*READINGS.items(), *RIGHT.items()])
    write_kiln_hand_in(course, "k2", [("crucible", READINGS["crucible"])])
    result = run("mark", course, "--handins", tmp_path / "handins", "--to", "marks")
    assert result.exit_code == 0
    page = Path(f"marks/pages/k1/{KILN}.html").read_text(encoding="utf-8")
    # By hand: 25.80 g - 24.50 g = 1.30 g of lime.
    assert "= 25.80 g − 24.50 g" in page
    assert "= 1.30 g" in page
    assert Path(f"marks/pages/k2/{KILN}.html").is_file()


def test_a_lab_is_filed_under_its_own_dates_and_class(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    text = course.read_text(encoding="utf-8")
    dates = f"""
[dates.{LAB}]
open = 2026-03-02T09:00:00
due  = 2036-03-09T17:00:00
"""
    course.write_text(text + dates, encoding="utf-8")
    hand_in_all(course, tmp_path / "in", ["a1"])
    assert run("mark", course, "--handins", "in", "--to", "marks").exit_code == 0
    (item,) = rows(Path("marks/oneroster/lineItems.csv"))
    assert (item["assignDate"], item["dueDate"]) == ("2026-03-02", "2036-03-09")
    assert item["classSourcedId"] == "salt-1"
    assert item["gradingPeriodSourcedId"] == "salt-1"


def test_a_lab_is_filed_in_the_period_that_the_course_names(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    text = course.read_text(encoding="utf-8")
    named = text.replace("[course]\n", '[course]\nperiod = "autumn-2"\n')
    course.write_text(named, encoding="utf-8")
    hand_in_all(course, tmp_path / "in", ["a1"])
    assert run("mark", course, "--handins", "in", "--to", "marks").exit_code == 0
    (item,) = rows(Path("marks/oneroster/lineItems.csv"))
    assert item["gradingPeriodSourcedId"] == "autumn-2"
