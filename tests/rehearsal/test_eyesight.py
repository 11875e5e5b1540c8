"""Instruments misread by a simulated class."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.rehearsal.eyesight import misread
from workbook.rehearsal.register import Register
from workbook.rehearsal.seat import Seat
from workbook.rehearsal.student import Student

if TYPE_CHECKING:
    import random

    from workbook.rehearsal.paper import Paper

TIMES = 30


def misread_often(paper: Paper, chance: random.Random, name: str) -> Register:
    """Misread one instrument again and again, and return what was counted."""
    seat, register = Seat(Student(paper, chance)), Register(paper.case.graph)
    ask = next(each for each in paper.case.graph.lab.public.asks if each.of == name)
    for _ in range(TIMES):
        misread(seat, ask, register, chance)
    return register


def test_a_display_that_was_copied_wrongly_is_always_named(
    paper: Paper, chance: random.Random
) -> None:
    tally = misread_often(paper, chance, "dish").tally
    assert (tally.attempts, tally.named.hits, tally.named.of) == (TIMES, TIMES, TIMES)


def test_a_misread_scale_is_not_named_wrongly(
    paper: Paper, chance: random.Random
) -> None:
    tally = misread_often(paper, chance, "oil_volume").tally
    assert tally.misnamed.of == TIMES
    assert tally.misnamed.hits == 0
    assert tally.unseen.hits > 0


def test_what_has_no_instrument_is_not_misread(
    paper: Paper, chance: random.Random
) -> None:
    assert misread_often(paper, chance, "oil_mass").tally.attempts == 0
