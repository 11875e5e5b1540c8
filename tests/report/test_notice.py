"""Students who may need a word, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.classroom import make_mark, make_step
from workbook.labfile.roster import Student
from workbook.report.cohort import line_up
from workbook.report.fact import sum_up
from workbook.report.notice import list_notices

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.report.cohort import Cohort
    from workbook.report.fact import Fact

NAMES = ("steady", "absent", "low", "short", "busy")
ROSTER = [Student(name, name.title()) for name in NAMES]
STEPS = ("oil_volume", "oil_mass", "oil_amount", "soap_mass")


def line_up_class(*facts: Fact) -> Cohort:
    return line_up(STEPS, (), facts)


def take(student: str, kinds: Iterable[str]) -> Fact:
    """Return what came of each step of a student."""
    steps = [make_step(s, kind) for s, kind in zip(STEPS, kinds, strict=True)]
    return sum_up(make_mark(student, steps), STEPS, {})


def make_class() -> Cohort:
    kinds = {
        "steady": ["right"] * 4,
        "low": ["right", "slip", "slip", "slip"],
        "short": ["right", "right", "blank", "blank"],
        "busy": ["right"] * 2 + ["slip"] * 2,
    }
    return line_up_class(*(take(name, found) for name, found in kinds.items()))


def reasons() -> dict[str, str]:
    """Return why each who stands out may need a word."""
    found = list_notices(ROSTER, make_class())
    return {notice.student.id: "; ".join(notice.reasons) for notice in found}


def test_who_does_well_is_not_named() -> None:
    assert "steady" not in reasons()


def test_who_handed_in_nothing_is_named() -> None:
    assert reasons()["absent"] == "handed in nothing that could be marked"


def test_who_has_less_than_half_is_named() -> None:
    # 2 of 8 points; 10 attempts, and the class makes 4, 10, 2 and 8: 6 in the middle.
    assert reasons()["low"] == "has less than half of the points"


def test_who_left_much_blank_is_named() -> None:
    assert reasons()["short"] == "left 2 of 4 steps blank"


def test_who_tried_more_than_twice_as_often_is_named() -> None:
    eager = take("busy", ["slip"] * 4)
    quiet = [take(name, ["right"] * 4) for name in ("steady", "low", "short")]
    (_, notice) = list_notices(ROSTER, line_up_class(*quiet, eager))
    assert notice.reasons[1].startswith("made 12 attempts")


def test_an_empty_class_is_no_error() -> None:
    assert len(list_notices(ROSTER, line_up_class())) == len(ROSTER)
