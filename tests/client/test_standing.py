"""Which answer of a step stands."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from workbook.client.record import Record
from workbook.client.standing import Standing, takes_place
from workbook.wire.answer import Answer, Noted, Typed
from workbook.wire.handin import Attempt
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)


@pytest.fixture
def record(tmp_path: Path) -> Record:
    return Record(tmp_path / "r.jsonl", SheetId("autumn", "cold-cream", 1, "s07"))


def attempt(record: Record, text: str, outcome: Outcome | None) -> None:
    record.add_attempt(Attempt(text, "wax_mass", Typed(text), NOON))
    if outcome is not None:
        record.add_verdict(text, Verdict(outcome, "Said."), NOON)


def test_the_latest_attempt_stands_even_if_it_is_worse(record: Record) -> None:
    attempt(record, "1.0 g", Outcome.RIGHT)
    attempt(record, "2.0 g", Outcome.WRONG)
    standing = Standing((record,))
    assert standing.answers == {"wax_mass": Typed("2.0 g")}
    assert not standing.is_right("wax_mass")


@pytest.mark.parametrize(
    "outcome", [Outcome.UNREAD, Outcome.ASKED, Outcome.BLANK, Outcome.COARSE]
)
def test_what_was_no_attempt_leaves_the_one_before_standing(
    record: Record, outcome: Outcome
) -> None:
    attempt(record, "1.0 g", Outcome.RIGHT)
    attempt(record, "1,000", outcome)
    standing = Standing((record,))
    assert standing.answers == {"wax_mass": Typed("1.0 g")}
    assert standing.is_right("wax_mass")


def test_an_attempt_that_waits_stands_but_is_not_right_yet(record: Record) -> None:
    attempt(record, "1.0 g", None)
    standing = Standing((record,))
    assert standing.answers == {"wax_mass": Typed("1.0 g")}
    assert not standing.is_right("wax_mass")


def test_a_value_that_follows_counts_as_right(record: Record) -> None:
    attempt(record, "1.0 g", Outcome.FOLLOWS)
    assert Standing((record,)).is_right("wax_mass")


def test_a_step_that_was_not_tried_is_not_right(record: Record) -> None:
    assert not Standing((record,)).is_right("wax_share")


@pytest.mark.parametrize("outcome", [Outcome.COMMITTED, Outcome.KEPT])
def test_what_is_kept_and_not_judged_is_done(record: Record, outcome: Outcome) -> None:
    attempt(record, "soft", outcome)
    assert Standing((record,)).is_right("wax_mass")


def test_a_prediction_stands_against_every_later_answer(record: Record) -> None:
    attempt(record, "soft", Outcome.COMMITTED)
    attempt(record, "firm", Outcome.COMMITTED)
    standing = Standing((record,))
    assert standing.answers == {"wax_mass": Typed("soft")}
    assert standing.is_committed("wax_mass")


TYPED, NOTED, CHANGED = Typed("1 g"), Noted("1 g"), Noted("2 g", "misread", "1 g")


@pytest.mark.parametrize(
    ("standing", "answer", "outcome", "takes"),
    [
        (None, TYPED, None, True),
        (Outcome.RIGHT, TYPED, Outcome.WRONG, True),
        (Outcome.RIGHT, TYPED, Outcome.EARLY, False),
        (Outcome.COMMITTED, TYPED, Outcome.COMMITTED, False),
        (Outcome.NOTED, NOTED, Outcome.NOTED, False),
        (Outcome.NOTED, CHANGED, Outcome.NOTED, True),
        (Outcome.NOTED, CHANGED, Outcome.UNFIT, False),
        (Outcome.NOTED, CHANGED, None, False),
    ],
)
def test_a_later_answer_takes_the_place_of_one_that_stands(
    standing: Outcome | None, answer: Answer, outcome: Outcome | None, *, takes: bool
) -> None:
    assert takes_place(standing, answer, outcome) is takes
