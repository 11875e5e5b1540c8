"""A marking held against an earlier one."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from msgspec.structs import replace

from tests.marking.test_result import SHEET, STEP
from tests.support.marked import sort_marks
from workbook.marking.comparison import compare, keep_higher, note_kept

if TYPE_CHECKING:
    from workbook.marking.result import SheetMark


def make(student: str, points: str, lab: str = "soap") -> SheetMark:
    """Return a sheet with one step, which earns everything."""
    step = replace(STEP, points=Decimal(points), reason="The band is wider now.")
    return replace(
        SHEET, student=student, lab=lab, steps=(step,), points=Decimal(points)
    )


def pair(before: str, after: str) -> tuple[Decimal, Decimal]:
    return Decimal(before), Decimal(after)


def test_a_sheet_that_earns_the_same_is_left_out() -> None:
    # 1.0 and 1.00 are the same number of points.
    before, after = make("a1", "1.0"), make("a1", "1.00")
    assert list(compare(sort_marks(before), sort_marks(after))) == []


def test_each_change_says_the_steps_and_their_reasons() -> None:
    (change,) = compare(sort_marks(make("a1", "1")), sort_marks(make("a1", "2")))
    assert (change.student, change.before, change.after) == ("a1", *pair("1", "2"))
    (step,) = change.steps
    assert (step.step, step.before, step.after) == ("discussion", *pair("1", "2"))
    assert step.reason == "The band is wider now."


def test_changes_that_cancel_in_the_total_are_told() -> None:
    one, two = make("a1", "1"), make("a1", "1")
    first, second = STEP, replace(STEP, step="other", points=Decimal("0.9"))
    turned = replace(first, points=Decimal("0.9")), replace(second, points=first.points)
    before, after = replace(one, steps=(first, second)), replace(two, steps=turned)
    (change,) = compare(sort_marks(before), sort_marks(after))
    assert change.before == change.after
    assert len(change.steps) == 2


def test_a_hand_in_that_came_or_went_is_told() -> None:
    gone, came = compare(sort_marks(make("a1", "1")), sort_marks(make("b2", "2")))
    assert (gone.student, gone.before, gone.after) == ("a1", Decimal(1), None)
    assert (came.student, came.before, came.after) == ("b2", None, Decimal(2))


def test_with_rises_only_the_higher_mark_stands_and_says_so() -> None:
    before = sort_marks(make("a1", "3"), make("b2", "1"), make("c3", "2"))
    after = sort_marks(make("a1", "2"), make("b2", "2"))
    kept = {mark.student: mark for mark in keep_higher(before, after)}
    assert {s: mark.points for s, mark in kept.items()} == {"a1": 3, "b2": 2, "c3": 2}
    assert kept["a1"].remark == "Kept from an earlier marking: the later gives 2."
    assert kept["b2"].remark == ""
    again = keep_higher(sort_marks(*kept.values()), after)
    assert next(m for m in again if m.student == "a1").remark == kept["a1"].remark


def test_marks_stay_with_those_of_their_lab() -> None:
    before = sort_marks(
        make("a1", "3", "salt"), make("z9", "3", "salt"), make("a1", "3")
    )
    after = sort_marks(make("a1", "3", "salt"), make("a1", "3"))
    labs = [mark.lab for mark in keep_higher(before, after)]
    assert labs == ["salt", "salt", "soap"]


def test_a_fall_is_noted_as_kept() -> None:
    changes = compare(
        sort_marks(make("a1", "3"), make("b2", "1")), sort_marks(make("b2", "2"))
    )
    assert [each.is_kept for each in note_kept(changes)] == [True, False]
