"""Single attempts from an honest sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.graph.slip import Slip, SlipKind, slips_of
from workbook.rehearsal.attempt import Attempts
from workbook.rehearsal.register import Register
from workbook.rehearsal.seat import Seat
from workbook.rehearsal.student import Student
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    import random

    from workbook.labfile.half import Ask
    from workbook.rehearsal.paper import Paper
    from workbook.rehearsal.tally import Tally


@pytest.fixture
def register(paper: Paper) -> Register:
    return Register(paper.case.graph)


@pytest.fixture
def tally(register: Register) -> Tally:
    return register.tally


@pytest.fixture
def attempts(paper: Paper, register: Register, chance: random.Random) -> Attempts:
    return Attempts(Seat(Student(paper, chance)), register, chance)


@pytest.fixture
def ask(paper: Paper) -> Ask:
    asks = paper.case.graph.lab.public.asks
    return next(ask for ask in asks if ask.of == "oil_mass")


def test_a_density_upside_down_is_named_and_pointed_at(
    attempts: Attempts, paper: Paper, ask: Ask, tally: Tally
) -> None:
    # 12.5 mL / 0.911 g/mL = 13.72 g: no other mistake leads there.
    slips = {each.kind: each for each in slips_of(paper.case.graph, "oil_mass")}
    attempts.try_slip(ask, slips[SlipKind.DENSITY_UPSIDE_DOWN])
    assert (tally.named.hits, tally.named.of) == (1, 1)
    assert (tally.shown.hits, tally.shown.of) == (1, 1)
    assert tally.attempts == 2


def test_a_slip_on_the_right_answer_is_unseen(
    attempts: Attempts, ask: Ask, tally: Tally
) -> None:
    same = Slip(SlipKind.OWN, "Nothing.", read_relation("oil_volume * oil.density"))
    attempts.try_slip(ask, same)
    assert (tally.unseen.hits, tally.named.of) == (1, 0)


def test_a_slip_without_a_value_is_not_tried(
    attempts: Attempts, ask: Ask, tally: Tally
) -> None:
    nowhere = read_relation("oil_volume / (dish - dish)")
    attempts.try_slip(ask, Slip(SlipKind.OWN, "Nowhere.", nowhere))
    assert tally.attempts == 0


def test_guesses_are_counted_beside_what_is_expected(
    attempts: Attempts, ask: Ask, tally: Tally
) -> None:
    for _ in range(20):
        attempts.guess(ask)
    assert tally.guesses_named.of == tally.guesses_right.of == 20
    # Of 11.4 g to tenths: two values at most, in two powers of ten.
    assert 0 < tally.guesses_expected < 20 * 0.01


def test_typing_errors_are_counted(attempts: Attempts, ask: Ask, tally: Tally) -> None:
    for _ in range(20):
        attempts.mistype(ask)
    assert 0 < tally.typing_no_try.of <= 20
