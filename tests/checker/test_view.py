"""A record as it stood at one moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.recorded import make_record
from tests.support.soap import COURSE, LAB, NOON, make_attempts, name_sheet
from workbook.checker.tried import Taken
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from pathlib import Path


def test_what_comes_in_later_is_not_in_it(tmp_path: Path) -> None:
    record = make_record(tmp_path / "record.sqlite")
    first, second = make_attempts([("dish", Typed("1 g")), ("dish", Typed("2 g"))])
    record.take(name_sheet("b2"), first)
    record.take_hand_in(name_sheet("a1"), "ab", NOON)
    view = record.view()
    record.take(name_sheet("b2"), second)
    record.take(name_sheet("c3"), first)
    record.take_hand_in(name_sheet("a1"), "cd", NOON)
    assert view.sheets(COURSE, LAB) == [name_sheet("a1"), name_sheet("b2")]
    assert view.attempts(name_sheet("b2")) == (first,)
    assert view.hand_ins(name_sheet("a1")) == (Taken("ab", NOON),)
    later = record.view()
    assert later.attempts(name_sheet("b2")) == (first, second)
    assert len(later.sheets(COURSE, LAB)) == 3


def test_an_empty_record_has_no_sheet(tmp_path: Path) -> None:
    view = make_record(tmp_path / "record.sqlite").view()
    assert view.sheets(COURSE, LAB) == []
    assert view.attempts(name_sheet("a1")) == ()


def test_another_course_is_not_seen(tmp_path: Path) -> None:
    record = make_record(tmp_path / "record.sqlite")
    record.take_hand_in(name_sheet("a1"), "ab", NOON)
    assert record.view().sheets("other", LAB) == []
