"""The records of both notebooks."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from workbook.client.history import History
from workbook.client.place import Part
from workbook.wire.answer import Typed
from workbook.wire.handin import Attempt
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

SHEET = SheetId("autumn", "cold-cream", 1, "s07")
NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)
RIGHT = Verdict(Outcome.RIGHT, "It agrees.")


def attempt(step: str, minute: int) -> Attempt:
    at = NOON + timedelta(minutes=minute)
    return Attempt(f"{step}{minute}", step, Typed("1 g"), at)


def test_the_attempts_of_both_parts_are_gathered_by_time(tmp_path: Path) -> None:
    prelab = History(tmp_path, SHEET, Part.PRELAB)
    postlab = History(tmp_path, SHEET, Part.POSTLAB)
    postlab.own.add_attempt(attempt("wax_mass", 2))
    prelab.own.add_attempt(attempt("plan", 1))
    expected = (attempt("plan", 1), attempt("wax_mass", 2))
    assert prelab.gather() == postlab.gather() == expected


def test_an_answer_of_the_other_part_stands_too(tmp_path: Path) -> None:
    History(tmp_path, SHEET, Part.PRELAB).own.add_attempt(attempt("plan", 1))
    postlab = History(tmp_path, SHEET, Part.POSTLAB)
    assert postlab.stand().answers == {"plan": Typed("1 g")}


def test_the_same_answer_twice_in_a_row_is_a_repeat(tmp_path: Path) -> None:
    history = History(tmp_path, SHEET, Part.POSTLAB)
    history.own.add_attempt(attempt("wax_mass", 1))
    history.own.add_verdict("wax_mass1", RIGHT, NOON)
    assert history.find_repeat("wax_mass", Typed("1 g")) == RIGHT
    assert history.find_repeat("wax_mass", Typed("2 g")) is None


def test_it_is_no_repeat_once_another_step_was_tried(tmp_path: Path) -> None:
    history = History(tmp_path, SHEET, Part.POSTLAB)
    history.own.add_attempt(attempt("wax_mass", 1))
    history.own.add_verdict("wax_mass1", RIGHT, NOON)
    History(tmp_path, SHEET, Part.PRELAB).own.add_attempt(attempt("plan", 2))
    assert history.find_repeat("wax_mass", Typed("1 g")) is None


def test_the_last_attempt_comes_with_its_verdict_if_there_is_one(
    tmp_path: Path,
) -> None:
    history = History(tmp_path, SHEET, Part.POSTLAB)
    assert history.last("wax_mass") is None
    history.own.add_attempt(attempt("wax_mass", 1))
    assert history.last("wax_mass") == (Typed("1 g"), None)


def test_a_damaged_line_is_told_with_its_number(tmp_path: Path) -> None:
    (tmp_path / "cold-cream-postlab.attempts.jsonl").write_text('{"type":\n')
    (notice,) = History(tmp_path, SHEET, Part.POSTLAB).notices
    assert notice.startswith("Line 1 of cold-cream-postlab.attempts.jsonl is damaged")
