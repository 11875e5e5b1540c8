"""A simulated class reaches what the workbook promises, in a small rehearsal."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import KILN, make_lab
from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.rehearsal.classroom import Classroom
from workbook.rehearsal.page import GUESS_REACH, MISNAMED_REACH, NAMED_REACH, tabulate
from workbook.solver.bench import prepare

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab
    from workbook.rehearsal.tally import Tally

#: Copies of the lab; some 170 attempts are made at each.
COPIES = 16

#: Guesses at each step of each copy.
GUESSES = 12


@pytest.fixture(scope="module")
def tally(lab: Lab) -> Tally:
    bench = prepare(lab, Conventions())
    room = Classroom(bench.compiled.graph, seed=1)
    for case in bench.draw(CourseKey(bytes(32)), [f"s{n}" for n in range(COPIES)]):
        room.sit(case)
    return room.tally


def test_thousands_of_attempts_are_judged(tally: Tally) -> None:
    assert tally.attempts > 2000
    counts = (tally.named, tally.followed, tally.guesses_named, tally.variants_inside)
    assert all(count.of > 0 for count in counts)


def test_no_honest_attempt_is_wrong(tally: Tally) -> None:
    assert tally.honest_wrong.of > 500
    assert tally.honest_wrong.hits == 0, tally.examples


def test_slips_that_show_are_named_rightly(tally: Tally) -> None:
    assert tally.named.of > 500
    assert tally.named.share >= NAMED_REACH


def test_hardly_a_slip_is_named_wrongly(tally: Tally) -> None:
    assert tally.misnamed.share <= MISNAMED_REACH


def test_guesses_are_hardly_ever_named(lab: Lab) -> None:
    bench = prepare(lab, Conventions())
    room = Classroom(bench.compiled.graph, seed=1)
    for case in bench.draw(CourseKey(bytes(32)), [f"s{n}" for n in range(COPIES)]):
        room.guess(case, GUESSES)
    assert room.tally.guesses_named.of > 3000
    assert room.tally.guesses_named.share <= GUESS_REACH


def test_guesses_are_right_as_often_as_the_bands_are_wide(tally: Tally) -> None:
    row = next(row for row in tabulate(tally) if row.figure == "guesses judged right")
    assert row.is_reached


def test_what_follows_from_a_slip_earns_the_step(tally: Tally) -> None:
    assert tally.followed.hits == tally.followed.of


def test_no_variant_has_a_slip_inside_the_band(tally: Tally) -> None:
    assert tally.variants_inside.hits == 0


def test_no_sentence_tells_a_number(tally: Tally) -> None:
    assert tally.leaks.of == tally.attempts
    assert tally.leaks.hits == 0


def test_a_slip_in_the_working_is_pointed_at(tally: Tally) -> None:
    assert tally.shown.of > 50
    assert tally.shown.hits == tally.shown.of


def test_the_same_seed_gives_the_same_class(lab: Lab) -> None:
    bench = prepare(lab, Conventions())
    (case,) = bench.draw(CourseKey(bytes(32)), ["one"])
    rooms = [Classroom(bench.compiled.graph, seed) for seed in (7, 7, 8)]
    for room in rooms:
        room.sit(case)
    first, second, third = (room.tally for room in rooms)
    assert first == second
    assert first != third


def test_a_simulated_class_brings_its_own_readings(tmp_path: Path) -> None:
    bench = prepare(make_lab(tmp_path, KILN), Conventions())
    room = Classroom(bench.compiled.graph, seed=1)
    for case in bench.draw(CourseKey(bytes(32)), ["s1", "s2"]):
        room.sit(case)
    assert room.tally.honest_wrong.of > 30
    assert room.tally.honest_wrong.hits == 0, room.tally.examples
    assert room.tally.followed.hits == room.tally.followed.of > 0
