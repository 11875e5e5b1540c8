"""One honest sheet at the judge, and what is tried from there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.graph.slip import Slip, SlipKind
from workbook.rehearsal.seat import Seat
from workbook.rehearsal.student import Student
from workbook.relation.reader import read_relation
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    import random

    from workbook.labfile.half import Ask
    from workbook.rehearsal.paper import Paper


@pytest.fixture
def seat(paper: Paper, chance: random.Random) -> Seat:
    return Seat(Student(paper, chance))


def ask_of(seat: Seat, step: str) -> Ask:
    return next(ask for ask in seat.case.graph.lab.public.asks if ask.id == step)


def test_an_honest_sheet_holds(seat: Seat) -> None:
    assert all(verdict.value_holds for verdict in seat.judge.verdicts.values())
    assert seat.own(ask_of(seat, "oil_mass")).value == pytest.approx(11.3875)


# By hand, of 11.3875 g typed to tenths: twice 0.05 g on both sides.
@pytest.mark.parametrize(
    ("text", "is_unseen"),
    [("11.4 g", True), ("11.3 g", True), ("11.5 g", False), ("13.7 g", False)],
)
def test_a_value_within_twice_the_band_shows_nothing(
    seat: Seat, text: str, *, is_unseen: bool
) -> None:
    ask = ask_of(seat, "oil_mass")
    typing = seat.read(ask, text)
    assert typing is not None
    assert seat.is_unseen(ask, typing) == is_unseen


def test_what_can_not_be_read_has_no_value(seat: Seat) -> None:
    assert seat.read(ask_of(seat, "oil_mass"), "some grams") is None


@pytest.mark.parametrize(
    ("relation", "is_inside"),
    [("1.001 * oil_volume * oil.density", True), ("oil_volume", False)],
)
def test_a_slip_beside_the_right_answer_is_inside(
    seat: Seat, relation: str, *, is_inside: bool
) -> None:
    slip = Slip(SlipKind.OWN, "A mistake.", read_relation(relation))
    assert seat.is_inside(ask_of(seat, "oil_mass"), slip) == is_inside


def test_slips_of_one_value_are_twins(seat: Seat) -> None:
    # The density upside down is a slip of this step: 12.5 / 0.911 = 13.72 g.
    ask = ask_of(seat, "oil_mass")
    other = Slip(SlipKind.OWN, "Another.", read_relation("1.0976 * oil_volume"))
    typing = seat.read(ask, "13.72 g")
    assert typing is not None
    assert seat.find_twins(ask, other, typing) == ["density_upside_down"]


def test_a_guess_is_judged_beside_the_honest_rest(seat: Seat) -> None:
    ask = ask_of(seat, "percent_yield")
    answer = seat.student.answer_with(ask, "31 %")
    assert seat.judge.retry(ask, answer).outcome in {Outcome.WRONG, Outcome.SLIP}
