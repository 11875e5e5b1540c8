"""Who has done what, from a service's record and from a marking."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from tests.support.recorded import make_record
from tests.support.soap import COURSE, LAB, NOON, make_attempts, name_sheet
from workbook.desk.running import (
    Seen,
    Tried,
    count_class,
    list_rows,
    see_marks,
    see_record,
)
from workbook.labfile.roster import Student
from workbook.wire.answer import Typed
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from workbook.marking.result import SheetMark

ROSTER = (Student("a1", "Ada"), Student("b2", "Ben"))
LATER = NOON + timedelta(hours=1)


def test_a_record_tells_attempts_outcome_time_and_hand_in(tmp_path: Path) -> None:
    record, sheet = make_record(tmp_path / "record.sqlite"), name_sheet("a1")
    first, second = make_attempts([("dish", Typed("4 g")), ("dish", Typed("5 g"))])
    for attempt in (first, second):
        record.take(sheet, attempt)
    record.note(sheet, second.id, Outcome.RIGHT)
    record.take_hand_in(sheet, "ab" * 32, LATER)
    seen = see_record(record, sheet)
    assert seen.tried == {("a1", "dish"): Tried(2, Outcome.RIGHT, second.at)}
    assert seen.handed_in == {"a1": LATER}
    assert seen.begun == {"a1"}


def test_of_those_who_are_not_asked_about_it_is_known_that_they_began(
    tmp_path: Path,
) -> None:
    record = make_record(tmp_path / "record.sqlite")
    for student in ("a1", "b2"):
        (attempt,) = make_attempts([("dish", Typed("4 g"))])
        record.take(name_sheet(student), attempt)
    seen = see_record(record, name_sheet(""), {"b2"})
    assert [student for student, _ in seen.tried] == ["b2"]
    assert seen.begun == {"a1", "b2"}


def test_another_revision_of_the_lab_is_left_out(tmp_path: Path) -> None:
    record = make_record(tmp_path / "record.sqlite")
    older = SheetId(COURSE, LAB, 7, "a1")
    record.take(older, make_attempts([("dish", Typed("4 g"))])[0])
    record.take_hand_in(older, "ab" * 32, NOON)
    assert see_record(record, name_sheet("")) == Seen()


def test_a_marking_tells_what_was_marked(marks: Sequence[SheetMark]) -> None:
    seen = see_marks(marks, LAB)
    assert {student for student, _ in seen.tried} == {"a1", "b2"}
    assert seen.tried["a1", "soap_mass"].outcome is Outcome.RIGHT
    assert seen.begun == {"a1", "b2"}
    assert see_marks(marks, "salt") == Seen()


def test_who_is_not_on_the_roster_is_not_counted() -> None:
    seen = Seen({}, {"b2": LATER, "z9": LATER}, frozenset({"a1", "b2", "z9"}))
    said = count_class(seen, ROSTER)
    assert said == "2 students: 2 have begun, 1 have handed in."


def test_everybody_has_a_row_and_nobody_else() -> None:
    tried = Tried(1, Outcome.WRONG, NOON)
    seen = Seen({("b2", "dish"): tried, ("z9", "dish"): tried}, {"b2": LATER})
    none, some = list_rows(seen, ROSTER)
    assert (none.student.id, none.tried, none.last) == ("a1", {}, None)
    assert (some.tried, some.last, some.done) == ({"dish": tried}, LATER, 0)
