"""Sheets of a service's record to those that are marked."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.support.soap import NOON, make_attempts, name_sheet
from workbook.marking.recorded import RecordedSheet, gather_recorded
from workbook.wire.answer import Typed
from workbook.wire.handin import digest
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from workbook.marking.acceptance import Expected
    from workbook.marking.gather import Accepted, Gathered
    from workbook.solver.source import CourseSource

HOUR = timedelta(hours=1)


@pytest.fixture
def sheet() -> RecordedSheet:
    """Return two answers, the second of them an hour after noon at the latest."""
    attempts = make_attempts([("dish", Typed("45.05 g")), ("dish", Typed("45.06 g"))])
    return RecordedSheet(name_sheet("a1"), attempts, (NOON + 3 * HOUR,))


def take(source: CourseSource, expected: Expected, *sheets: RecordedSheet) -> Gathered:
    held = {each.sheet: each for each in sheets}
    return gather_recorded(held, held.__getitem__, expected, source.seal)


def take_one(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> Accepted:
    (found,) = take(source, expected, sheet).take()
    return found


def test_a_sheet_that_was_handed_in_counts_as_of_then(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> None:
    found = take_one(source, expected, sheet)
    assert found.at == found.received == NOON + 3 * HOUR
    assert (found.hand_in.attempts, found.remark, found.note) == (
        sheet.attempts,
        "",
        "",
    )


def test_the_hand_in_is_as_well_formed_as_a_student_s(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> None:
    hand_in = take_one(source, expected, sheet).hand_in
    assert hand_in.digest == digest(hand_in.sheet, hand_in.attempts, hand_in.at)
    assert source.is_seal(hand_in.seal, hand_in.sheet, hand_in.digest)


def test_what_came_after_the_last_hand_in_is_left_out_and_staff_are_told(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> None:
    early = replace(
        sheet, handed_in=(sheet.attempts[0].at - HOUR, sheet.attempts[0].at)
    )
    found = take_one(source, expected, early)
    assert found.hand_in.attempts == sheet.attempts[:1]
    assert found.note.endswith("are not marked: 1.")


def test_a_sheet_that_was_not_handed_in_counts_whole_with_a_remark(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> None:
    found = take_one(source, expected, replace(sheet, handed_in=()))
    assert found.at == sheet.attempts[-1].at
    assert found.hand_in.attempts == sheet.attempts
    assert found.remark.startswith("It was not handed in")


def test_one_that_can_t_be_marked_is_told_and_stops_no_other(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> None:
    name = sheet.sheet
    older = replace(sheet, sheet=SheetId(name.course, name.lab, 7, name.student))
    nobody = replace(sheet, sheet=SheetId(name.course, name.lab, 1, "z9"))
    found = take(source, expected, older, nobody, sheet)
    reasons = sorted(error.reason for error in found.refused)
    assert "answers revision 7" in reasons[0]
    assert "no student 'z9'" in reasons[1]
    assert [each.name for each in found.accepted] == [sheet.name]


def test_nothing_at_all_is_no_hand_in(
    source: CourseSource, expected: Expected, sheet: RecordedSheet
) -> None:
    empty = replace(sheet, attempts=(), handed_in=())
    assert "neither answered" in take(source, expected, empty).refused[0].reason
