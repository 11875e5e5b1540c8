"""What each section has before it, from the sheet to the right answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, LYE, LYE_DENSITY, make_course, name_sheet
from workbook.judge.judge import judge
from workbook.labfile.course import read_course
from workbook.solver.shelf import Shelf
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

BOTTLE = f"""
[[bottles]]
lab = "{LAB}"
section = "evening"
of = "lye.mass_fraction"
value = "17.5 %"
source = "titrated in the prep room on 6 October"
"""


@pytest.fixture
def evening(tmp_path: Path) -> CourseSource:
    """Return a course whose evening section has weaker lye."""
    course = make_course(tmp_path)
    course.write_text(course.read_text(encoding="utf-8") + BOTTLE, encoding="utf-8")
    return CourseSource(course)


def test_each_sheet_prints_what_stood_on_the_bottle(evening: CourseSource) -> None:
    morning, other = (str(evening.sheet(name_sheet(s))) for s in ("a1", "b2"))
    assert "20.0 % by mass" in morning
    assert "17.5 % by mass" in other


def test_each_answer_is_judged_by_the_bottle_of_its_section(
    evening: CourseSource,
) -> None:
    for case, share in zip(
        evening.cases(LAB, ["a1", "b2"]), (0.200, 0.175), strict=True
    ):
        # The amount is volume times density times share, over the molar mass.
        right = case.values["lye_volume"] * LYE_DENSITY * share / LYE
        verdict = judge(case, "lye_amount", {"lye_amount": Typed(f"{right:#.3g} mol")})
        assert verdict.outcome is Outcome.RIGHT


def test_cases_come_in_the_order_that_was_asked(evening: CourseSource) -> None:
    students = ["b2", "a1", "c3", "b2"]
    cases = evening.cases(LAB, students)
    alone = [evening.case(name_sheet(student)) for student in students]
    assert [case.values for case in cases] == [case.values for case in alone]


def test_a_sheet_tells_when_it_is_due_and_what_late_work_costs(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    more = (
        f'zone = "Europe/London"\n[dates.{LAB}]\nopen = 2026-10-05T09:00:00\n'
        f"due = 2026-10-12T17:00:00\n"
        f'[marks.late]\nrule = "share a day"\ntakes = "0.10"\nuntil_days = 7\n'
        f'[marks.attempts.postlab]\nmost = 3\nfree = 2\ntakes = "0.25"\n'
    )
    course.write_text(course.read_text(encoding="utf-8") + more, encoding="utf-8")
    rules = CourseSource(course).sheet(name_sheet("a1")).rules
    assert rules[-5:] == (
        "Open from: 2026-10-05 09:00 (BST).",
        "Due: 2026-10-12 17:00 (BST), unless extended.",
        (
            "Late work loses 10 % of what was earned a day begun; after 7 days nothing "
            "is earned."
        ),
        "After the lab the first 3 attempts count.",
        (
            "After the lab each attempt after the first 2 takes 25 % of a step's "
            "points; what can't be read is none."
        ),
    )


def test_students_stand_together_in_the_order_of_the_roster(tmp_path: Path) -> None:
    shelf = Shelf(read_course(make_course(tmp_path)))
    assert shelf.mates("b2", 2) == shelf.mates("a1", 2) == ("a1", "b2")
    assert shelf.mates("c3", 2) == ("c3",)
