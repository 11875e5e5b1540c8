"""How a place to answer tells its card that something happened."""

from __future__ import annotations

from workbook.front.bell import Bell


def test_a_bell_that_nobody_set_is_silent() -> None:
    bell = Bell()
    bell.change()
    bell.enter()


def test_a_bell_calls_what_was_set_last() -> None:
    rung: list[int] = []
    bell = Bell(change=lambda: rung.append(1))
    bell.change = lambda: rung.append(2)
    bell.change()
    assert rung == [2]
