"""A simulated class hands in, and is marked like any other."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, NOON, STUDENTS, make_course
from workbook.labfile.roster import read_roster
from workbook.marking.acceptance import accept, expect
from workbook.rehearsal.handin import make_hand_ins
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from workbook.wire.handin import HandIn


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="module")
def hand_ins(source: CourseSource) -> list[HandIn]:
    return list(make_hand_ins(source, LAB, STUDENTS, 1, NOON))


def test_each_hand_in_is_accepted(source: CourseSource, hand_ins: list[HandIn]) -> None:
    expected = expect(source, read_roster(source.course.roster))
    for each in hand_ins:
        assert accept(each, f"{each.sheet.student}.handin.json", expected) == ""
    assert [each.sheet.student for each in hand_ins] == list(STUDENTS)


def test_times_go_on(hand_ins: list[HandIn]) -> None:
    for each in hand_ins:
        times = [NOON, *(attempt.at for attempt in each.attempts), each.at]
        assert times == sorted(times)


def test_the_same_seed_gives_the_same_class(
    source: CourseSource, hand_ins: list[HandIn]
) -> None:
    assert list(make_hand_ins(source, LAB, STUDENTS, 1, NOON)) == hand_ins


def test_the_rest_of_the_class_changes_nobodys_work(
    source: CourseSource, hand_ins: list[HandIn]
) -> None:
    (alone,) = make_hand_ins(source, LAB, ["b2"], 1, NOON)
    assert alone == hand_ins[1]
