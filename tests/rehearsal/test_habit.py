"""Habits of simulated students."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.matter.elements import TABLES
from workbook.rehearsal.habit import DISPLAY, draw_habit

if TYPE_CHECKING:
    import random


def test_every_habit_comes_up(chance: random.Random) -> None:
    habits = [draw_habit(chance) for _ in range(300)]
    assert {each.figures for each in habits} == {3, 4, DISPLAY}
    assert {each.guard for each in habits} == {0, 1, DISPLAY}
    assert {each.table for each in habits} == {*TABLES, None}
    assert {each.rounds_on_the_way for each in habits} == {True, False}
    assert {each.misreads for each in habits} == {True, False}
