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
    repeated = history.find_repeat("wax_mass", Typed("1 g"))
    assert repeated is not None
    assert history.own.verdict(repeated.id) == RIGHT
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
    assert history.last("wax_mass") == (attempt("wax_mass", 1), None)


def test_what_waits_in_the_other_part_is_found_in_its_record(tmp_path: Path) -> None:
    plan = attempt("plan", 1)
    History(tmp_path, SHEET, Part.PRELAB).own.add_attempt(plan)
    history = History(tmp_path, SHEET, Part.POSTLAB)
    history.own.add_attempt(attempt("wax_mass", 2))
    assert plan in history.unjudged
    history.find_record(plan).add_verdict(plan.id, RIGHT, NOON)
    assert history.unjudged == (attempt("wax_mass", 2),)


def test_another_part_that_can_t_be_read_holds_nothing_up(tmp_path: Path) -> None:
    history = History(tmp_path, SHEET, Part.POSTLAB)
    history.own.add_attempt(attempt("wax_mass", 1))
    (tmp_path / "cold-cream-prelab.attempts.jsonl").mkdir()
    assert history.unjudged == (attempt("wax_mass", 1),)


def test_a_damaged_line_is_told_with_its_number(tmp_path: Path) -> None:
    (tmp_path / "cold-cream-postlab.attempts.jsonl").write_text('{"type":\n')
    (notice,) = History(tmp_path, SHEET, Part.POSTLAB).notices
    assert notice.startswith("Line 1 of cold-cream-postlab.attempts.jsonl is damaged")


def test_a_second_notebook_on_the_record_is_told_once_it_writes(tmp_path: Path) -> None:
    one = History(tmp_path, SHEET, Part.POSTLAB)
    two = History(tmp_path, SHEET, Part.POSTLAB)
    two.own.add_draft("wax_mass", Typed("1"))
    one.own.add_draft("wax_share", Typed("2"))
    assert one.take_news() == {"wax_mass"}
    assert one.take_news() == set()
    assert one.notices == (one.shared,)
    assert "open in a second place" in one.shared
    assert two.shared == ""


def test_what_is_handed_in_holds_what_another_notebook_wrote(tmp_path: Path) -> None:
    one = History(tmp_path, SHEET, Part.POSTLAB)
    two = History(tmp_path, SHEET, Part.POSTLAB)
    two.own.add_attempt(attempt("wax_mass", 1))
    one.own.add_attempt(attempt("wax_share", 2))
    expected = (attempt("wax_mass", 1), attempt("wax_share", 2))
    assert one.gather() == two.gather() == expected


def test_a_prediction_that_was_made_is_found_whoever_made_it(tmp_path: Path) -> None:
    one = History(tmp_path, SHEET, Part.POSTLAB)
    two = History(tmp_path, SHEET, Part.POSTLAB)
    committed = Verdict(Outcome.COMMITTED, "It is kept.")
    one.own.add_attempt(attempt("wax_mass", 1))
    assert two.find_commitment("wax_mass") is None
    one.own.add_verdict("wax_mass1", committed, NOON)
    assert two.find_commitment("wax_mass") == committed
