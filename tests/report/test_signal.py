"""Signals: what is worth a question, planted one by one in a class."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import html5lib
import pytest

from tests.support.classroom import NOON, make_mark, make_step
from tests.support.page_text import read_page
from workbook.report.cohort import line_up
from workbook.report.fact import Fact, sum_up
from workbook.report.signal import (
    Signal,
    find_signals,
    print_signals,
    tabulate_signals,
)

#: Volumes and masses of 24 students, far from each other: 14 g in steps of 0.01 g.
SIZE = 24


#: What is asked; the first two are readings.
STEPS = ("oil_volume", "dish", "oil_mass")
READINGS = STEPS[:2]
HALVES = (0.05, 0.005, 0.05)


def make_student(number: int) -> Fact:
    """Return a student whose three answers are right."""
    marks = [make_step(step, minutes=2 * place) for place, step in enumerate(STEPS)]
    fact = sum_up(make_mark(f"s{number:02}", marks), STEPS, {})
    right = (11.0 + number / 10, 38.0 + 0.61 * number, 10.0 + 0.09 * number)
    fact.steps["right"] = fact.steps["typed"] = right
    fact.steps["half"] = HALVES
    return fact


@pytest.fixture
def facts() -> list[Fact]:
    return [make_student(number) for number in range(SIZE)]


def borrow(facts: list[Fact], steps: tuple[str, ...]) -> None:
    """Let student 3 hand in what student 7 has."""
    for step in steps:
        place = STEPS.index(step)
        facts[3].steps["typed"][place] = facts[7].steps["typed"][place]
        facts[3].steps["is_right"][place] = False


def find(facts: list[Fact], steps: tuple[str, ...] = STEPS) -> list[Signal]:
    return find_signals(line_up(steps, READINGS, facts))


def kinds(facts: list[Fact]) -> set[tuple[str, str, str]]:
    return {(s.student, s.other, s.kind) for s in find(facts)}


def test_an_honest_class_gives_none(facts: list[Fact]) -> None:
    assert find(facts) == []


def test_two_answers_that_are_right_for_another_are_told(facts: list[Fact]) -> None:
    borrow(facts, ("oil_mass", "oil_volume"))
    (signal,) = find(facts)
    assert (signal.student, signal.other) == ("s03", "s07")
    assert signal.kind == "right for another"
    assert "what is right on the sheet of s07" in signal.what


def test_one_such_answer_is_chance(facts: list[Fact]) -> None:
    borrow(facts, ("oil_mass",))
    assert find(facts) == []


def test_in_a_large_class_two_such_answers_are_chance(facts: list[Fact]) -> None:
    # A right volume meets another's by chance in 1 of 24, a right mass in 1 of 22:
    # among 23 others 0.04 have both, among 239 others 0.46.
    borrow(facts, ("oil_mass", "oil_volume"))
    more = [
        replace(make_student(number), student=f"t{copy}-{number}")
        for copy in range(9)
        for number in range(SIZE)
    ]
    assert len(find(facts)) == 1
    assert find([*facts, *more]) == []


def test_equal_readings_are_told_where_chance_hardly_makes_them(
    facts: list[Fact],
) -> None:
    # The chance of a pair: 1 in 24 volumes, 1 in 1404 masses; of 276 pairs 0.008.
    borrow(facts, ("dish", "oil_volume"))
    assert ("s03", "s07", "equal readings") in kinds(facts)


def test_one_equal_reading_of_a_coarse_instrument_is_not_told(
    facts: list[Fact],
) -> None:
    borrow(facts, ("oil_volume",))
    assert kinds(facts) == set()


def test_equal_readings_that_both_instruments_show_are_not_told(
    facts: list[Fact],
) -> None:
    facts[3] = replace(facts[7], student="s03")
    assert kinds(facts) == set()


def test_a_wrong_reading_that_another_made_as_well_is_told_once(
    facts: list[Fact],
) -> None:
    for number in (3, 7):
        facts[number].steps["typed"][:2] = 14.9, 99.99
        facts[number].steps["is_right"][:2] = False
    assert kinds(facts) == {("s03", "s07", "equal readings")}


def test_answers_that_come_at_once_are_told() -> None:
    steps = (*STEPS, "more")
    marks = [make_step(step, minutes=n / 60) for n, step in enumerate(steps)]
    (signal,) = find([sum_up(make_mark("s05", marks), steps, {})], steps)
    assert signal.kind == "quick answers"
    assert signal.what == "3 answers came less than 3 s after another."


def test_an_answer_after_the_hand_in_is_told(facts: list[Fact]) -> None:
    mark = make_mark("s05", [make_step("dish", minutes=90)])
    assert mark.handed_in == NOON + timedelta(hours=1)
    facts[5] = sum_up(mark, STEPS, {})
    (signal,) = find(facts)
    assert (signal.kind, signal.steps) == ("times out of order", ("dish",))


def test_no_sentence_accuses(facts: list[Fact]) -> None:
    borrow(facts, ("dish", "oil_volume", "oil_mass"))
    said = " ".join(signal.what for signal in find(facts)).lower()
    assert said
    for word in ("cheat", "copied", "copying", "fraud", "plagiar", "guilty"):
        assert word not in said


def test_the_page_says_that_nothing_is_proved(facts: list[Fact]) -> None:
    borrow(facts, ("dish", "oil_volume"))
    page = print_signals("Salt & soap", find(facts)).decode()
    html5lib.HTMLParser(strict=True).parse(page)
    texts = "".join(read_page(page)[0])
    assert "None proves anything, and none has changed a mark." in texts
    assert "s07" in texts


def test_the_table_has_a_row_for_each(facts: list[Fact]) -> None:
    borrow(facts, ("oil_mass", "oil_volume"))
    table = tabulate_signals(find(facts))
    assert table["steps"].tolist() == ["oil_volume oil_mass"]
