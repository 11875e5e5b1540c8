"""The record of one part: what is kept, and what survives."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from workbook.client.record import Record
from workbook.errors import TaskError
from workbook.wire.answer import Built, Chosen, Derived, Placed, Typed
from workbook.wire.handin import Attempt
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.answer import Answer

SHEET = SheetId("autumn", "cold-cream", 1, "s07")
NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)
RIGHT = Verdict(Outcome.RIGHT, "It agrees.")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "prelab.attempts.jsonl"


def attempt(number: int, answer: Answer | None = None) -> Attempt:
    return Attempt(f"a{number}", "wax_mass", answer or Typed(f"{number} g"), NOON)


@pytest.mark.parametrize(
    "answer",
    [
        Typed("1.50 g"),
        Built((Placed("density", turned=True),), "13.6 g"),
        Derived(("3M = 6", "M = 2"), "2 g/mol"),
        Chosen(("b", "a")),
    ],
)
def test_every_kind_of_answer_is_read_back_as_it_was(
    path: Path, answer: Answer
) -> None:
    Record(path, SHEET).add_attempt(attempt(1, answer))
    assert Record(path, SHEET).attempts == (attempt(1, answer),)


def test_an_attempt_without_a_verdict_is_known(path: Path) -> None:
    record = Record(path, SHEET)
    record.add_attempt(attempt(1))
    record.add_attempt(attempt(2))
    record.add_verdict("a1", RIGHT, NOON)
    assert Record(path, SHEET).unjudged == (attempt(2),)
    assert Record(path, SHEET).verdict("a1") == RIGHT


def test_an_attempt_that_could_not_be_judged_still_waits(path: Path) -> None:
    record = Record(path, SHEET)
    record.add_attempt(attempt(1))
    record.add_verdict("a1", Verdict(Outcome.NOT_JUDGED, "Later."), NOON)
    assert record.unjudged == (attempt(1),)


def test_an_attempt_that_is_refused_waits_no_more_and_says_why(path: Path) -> None:
    record = Record(path, SHEET)
    record.add_attempt(attempt(1))
    record.add_refusal("a1", "No attempt is left.", NOON)
    again = Record(path, SHEET)
    assert (again.unjudged, again.refusal("a1")) == ((), "No attempt is left.")
    again.add_verdict("a1", RIGHT, NOON)
    assert Record(path, SHEET).refusal("a1") == ""


def test_a_cut_last_line_costs_itself_only_and_is_told(path: Path) -> None:
    record = Record(path, SHEET)
    record.add_attempt(attempt(1))
    record.add_attempt(attempt(2))
    path.write_bytes(path.read_bytes()[:-20])
    again = Record(path, SHEET)
    assert again.attempts == (attempt(1),)
    # The first line names the sheet, the second is the attempt before.
    assert again.damaged == (3,)


def test_writing_goes_on_after_a_cut_line(path: Path) -> None:
    Record(path, SHEET).add_attempt(attempt(1))
    path.write_bytes(path.read_bytes() + b'{"type":"attem')
    Record(path, SHEET).add_attempt(attempt(2))
    again = Record(path, SHEET)
    assert again.attempts == (attempt(1), attempt(2))
    assert again.damaged == (3,)


def test_nothing_is_ever_taken_out_of_the_file(path: Path) -> None:
    record = Record(path, SHEET)
    record.add_attempt(attempt(1))
    before = path.read_bytes()
    record.add_draft("wax_mass", Typed("2"))
    assert path.read_bytes().startswith(before)


def test_the_latest_of_draft_and_attempt_is_what_stands_in_the_card(
    path: Path,
) -> None:
    record = Record(path, SHEET)
    record.add_draft("wax_mass", Typed("0"))
    record.add_attempt(attempt(1))
    assert Record(path, SHEET).content("wax_mass") == Typed("1 g")
    record.add_draft("wax_mass", Typed("1 g and"))
    assert Record(path, SHEET).content("wax_mass") == Typed("1 g and")
    assert Record(path, SHEET).content("wax_share") is None


def test_a_draft_that_is_kept_already_is_not_written_again(path: Path) -> None:
    record = Record(path, SHEET)
    record.add_draft("wax_mass", Typed("1"))
    size = path.stat().st_size
    record.add_draft("wax_mass", Typed("1"))
    assert path.stat().st_size == size


def test_a_record_of_another_sheet_is_refused_and_both_are_named(path: Path) -> None:
    Record(path, SHEET).add_attempt(attempt(1))
    with pytest.raises(TaskError, match=r"'s07', and the sheet .* 's08'"):
        Record(path, SheetId("autumn", "cold-cream", 1, "s08"))


def test_two_notebooks_on_one_record_lose_nothing(path: Path) -> None:
    one, two = Record(path, SHEET), Record(path, SHEET)
    one.add_attempt(attempt(1))
    two.add_attempt(attempt(2))
    one.add_attempt(attempt(3))
    again = Record(path, SHEET)
    assert again.attempts == (attempt(1), attempt(2), attempt(3))
    assert again.damaged == ()


def test_a_record_that_can_t_be_written_is_told_by_name(tmp_path: Path) -> None:
    record = Record(tmp_path / "gone" / "prelab.attempts.jsonl", SHEET)
    with pytest.raises(TaskError, match=r"prelab\.attempts\.jsonl can't be written"):
        record.add_attempt(attempt(1))
    assert record.attempts == ()


def test_a_record_that_can_t_be_read_is_told_by_name(path: Path) -> None:
    path.mkdir()
    with pytest.raises(TaskError, match=r"prelab\.attempts\.jsonl can't be read"):
        Record(path, SHEET)


def test_what_another_notebook_writes_is_known_after_reading_on(path: Path) -> None:
    one, two = Record(path, SHEET), Record(path, SHEET)
    two.add_attempt(attempt(2))
    two.add_verdict("a2", RIGHT, NOON)
    one.read_on()
    assert one.attempts == (attempt(2),)
    assert one.verdict("a2") == RIGHT
    assert one.news == {"wax_mass"}


def test_what_is_written_here_is_no_news_nor_what_stood_before(path: Path) -> None:
    Record(path, SHEET).add_attempt(attempt(1))
    record = Record(path, SHEET)
    record.add_draft("wax_mass", Typed("2"))
    record.add_attempt(attempt(2))
    assert record.news == set()
