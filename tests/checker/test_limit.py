"""How many attempts, how many a day, how fast."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.support.soap import NOON
from workbook.checker.limit import (
    BURST,
    MOST_A_DAY,
    RATE_PER_S,
    Pace,
    check_day,
    check_limit,
)
from workbook.checker.tried import Try
from workbook.errors import CheckerRefusedError
from workbook.wire.verdict import Outcome


def tried(text: str, outcome: Outcome | None = Outcome.WRONG, step: str = "a") -> Try:
    return Try(text, step, text, NOON, outcome)


NEW = tried("new", None)


@pytest.mark.parametrize(
    ("tries", "most"),
    [
        ([], 1),
        ([tried("1")], 2),
        ([tried("1")] * 9, 0),
        ([tried("1"), tried("2", Outcome.UNREAD)], 2),
        ([tried("1"), tried("2", step="b")], 2),
        # What is given again is no further attempt.
        ([tried("1"), tried("1")], 2),
        ([tried("1"), NEW], 2),
    ],
)
def test_an_attempt_within_the_limit_is_taken(tries: list[Try], most: int) -> None:
    check_limit(tries, NEW, most)


@pytest.mark.parametrize(
    ("tries", "most"),
    [
        ([tried("1")], 1),
        ([tried("1"), tried("2"), tried("3")], 2),
        ([tried("1"), tried("2", None)], 2),
        # Its turn came too early; judged now, it would be one too many.
        ([tried("1"), tried("2"), tried("new", Outcome.EARLY)], 2),
    ],
)
def test_an_attempt_beyond_the_limit_is_refused(tries: list[Try], most: int) -> None:
    with pytest.raises(CheckerRefusedError, match=f"takes {most} attempts") as caught:
        check_limit(tries, NEW, most)
    assert caught.value.code == "attempts"


def test_a_day_takes_so_many_and_the_next_day_as_many_again() -> None:
    times = [NOON] * MOST_A_DAY
    check_day(times[1:], NOON)
    with pytest.raises(CheckerRefusedError, match="tomorrow"):
        check_day(times, NOON + timedelta(hours=23))
    check_day(times, NOON + timedelta(hours=24))


class _Seconds:
    now_s = 0.0

    def __call__(self) -> float:
        return self.now_s


def test_after_a_burst_a_caller_goes_on_at_a_steady_rate() -> None:
    clock = _Seconds()
    pace = Pace(clock)
    assert [pace.spend("a") for _ in range(BURST)] == [0] * BURST
    assert pace.spend("a") == pytest.approx(1 / RATE_PER_S)
    clock.now_s = 1 / RATE_PER_S
    assert pace.spend("a") == 0
    assert pace.spend("a") > 0


def test_one_caller_does_not_slow_another() -> None:
    pace = Pace(_Seconds())
    for _ in range(BURST + 1):
        pace.spend("a")
    assert pace.spend("b") == 0


def test_to_look_counts_nothing() -> None:
    pace = Pace(_Seconds(), burst=1, rate_per_s=0.5)
    assert [pace.tell_wait("a") for _ in range(3)] == [0, 0, 0]
    assert pace.spend("a") == 0
    # One in two seconds.
    assert pace.tell_wait("a") == pytest.approx(2)


def test_who_waits_long_has_no_more_than_a_burst() -> None:
    clock = _Seconds()
    pace = Pace(clock)
    pace.spend("a")
    clock.now_s = 1e6
    assert [pace.spend("a") for _ in range(BURST)] == [0] * BURST
    assert pace.spend("a") > 0
