"""What a hub said, and how often it is asked about strangers."""

from __future__ import annotations

import pytest

from tests.support.caller import ADA, BEN
from workbook.checker.memory import BURST, MOST, RATE_PER_S, REMEMBERED_S, Memory
from workbook.errors import CheckerRefusedError

HERE, THERE = "10.0.0.1", "10.0.0.2"


class Seconds:
    """A clock that stands still until it is set."""

    now_s = 1000.0

    def __call__(self) -> float:
        """Give the time."""
        return self.now_s


@pytest.fixture
def clock() -> Seconds:
    return Seconds()


@pytest.fixture
def memory(clock: Seconds) -> Memory:
    return Memory(clock)


def storm(memory: Memory, tokens: int = BURST) -> None:
    """Have so many made-up tokens refused that came from one address."""
    for number in range(tokens):
        memory.check_pace(f"made-up-{number}", HERE)
        memory.keep_refused(f"made-up-{number}", HERE, "Who are you?")


def is_asked(memory: Memory, token: str, address: str) -> bool:
    """Tell whether the hub would be asked about a token."""
    try:
        memory.check_pace(token, address)
    except CheckerRefusedError:
        return False
    return True


def test_what_was_said_holds_for_a_while(memory: Memory, clock: Seconds) -> None:
    assert memory.recall("t") is None
    memory.keep("t", ADA)
    memory.keep("u", BEN)
    clock.now_s += REMEMBERED_S - 1
    assert (memory.recall("t"), memory.recall("u")) == (ADA, BEN)
    clock.now_s += 1
    assert memory.recall("t") is None


def test_a_refused_token_is_refused_again_with_the_same_words(
    memory: Memory, clock: Seconds
) -> None:
    memory.keep_refused("t", HERE, "Who are you?")
    with pytest.raises(CheckerRefusedError, match="Who are you") as caught:
        memory.recall("t")
    assert caught.value.code == "caller"
    clock.now_s += REMEMBERED_S
    assert memory.recall("t") is None


def test_after_too_many_strangers_no_further_one_is_asked_about(
    memory: Memory, clock: Seconds
) -> None:
    storm(memory)
    with pytest.raises(CheckerRefusedError) as caught:
        memory.check_pace("new", HERE)
    # So a notebook sends its answer again by itself.
    assert caught.value.code == "away"
    clock.now_s += 1 / RATE_PER_S
    assert is_asked(memory, "new", HERE)


def test_a_storm_holds_nobody_up_who_was_known_or_is_elsewhere(
    memory: Memory, clock: Seconds
) -> None:
    memory.keep("known", ADA)
    storm(memory)
    assert memory.recall("known") == ADA
    assert is_asked(memory, "new", THERE)
    # The hub's word is over; it is asked anew, however many strangers came.
    clock.now_s += REMEMBERED_S
    storm(memory)
    assert memory.recall("known") is None
    assert is_asked(memory, "known", HERE)


def test_a_whole_class_comes_at_once_from_one_address(memory: Memory) -> None:
    for number in range(10 * BURST):
        token = f"student-{number}"
        assert is_asked(memory, token, HERE)
        memory.keep(token, ADA)


def test_who_is_known_no_more_is_a_stranger(memory: Memory) -> None:
    memory.keep("t", ADA)
    memory.keep_refused("t", HERE, "The server was stopped.")
    storm(memory, BURST - 1)
    assert not is_asked(memory, "t", HERE)


def test_no_storm_fills_the_memory_or_drives_the_known_out(memory: Memory) -> None:
    memory.keep("known", ADA)
    for number in range(MOST + 10):
        memory.keep_refused(str(number), str(number), "Who are you?")
    assert memory.recall("known") == ADA
    assert memory.recall("0") is None
    with pytest.raises(CheckerRefusedError):
        memory.recall(str(MOST))
