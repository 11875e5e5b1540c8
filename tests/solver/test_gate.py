"""A sheet with and without what the instruments after the lab show."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.support.soap import name_sheet
from workbook.solver.gate import hold_back, list_sights
from workbook.wire.sheet import ReadingStep, Sheet

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.solver.practice import PracticeSource
    from workbook.solver.source import CourseSource

READINGS = ["oil_volume", "lye_volume", "dish", "dish_and_soap"]


@pytest.fixture
def whole(practice: PracticeSource) -> Sheet:
    """Return a sheet on which everything is shown."""
    return practice.sheet(practice.fresh())


def test_every_reading_after_the_lab_is_held_back(whole: Sheet) -> None:
    held = hold_back(whole, ("splash",))
    readings = [step for step in held.postlab if isinstance(step, ReadingStep)]
    assert [step.id for step in readings] == READINGS
    assert {(step.seen, step.picture) for step in readings} == {("", "")}
    assert held.gate == ("splash",)


def test_what_was_held_back_stands_nowhere_on_the_sheet(whole: Sheet) -> None:
    text = msgspec.json.encode(hold_back(whole, ("splash",))).decode()
    for sight in list_sights(whole):
        for shown in (sight.seen, sight.picture):
            assert shown
            assert msgspec.json.encode(shown).decode()[1:-1] not in text


def test_everything_else_is_left_as_it_was(whole: Sheet) -> None:
    held = hold_back(whole, ("splash",))
    assert held.prelab == whole.prelab
    assert held.givens == whole.givens
    others = [s for s in whole.postlab if not isinstance(s, ReadingStep)]
    assert [s for s in held.postlab if not isinstance(s, ReadingStep)] == others


def test_without_a_gate_the_sheet_is_whole(whole: Sheet) -> None:
    assert hold_back(whole, ()) == whole


def test_the_sights_are_those_of_the_sheet(whole: Sheet) -> None:
    sights = {each.step: each for each in list_sights(whole)}
    assert list(sights) == READINGS
    for name, sight in sights.items():
        step = whole.step(name)
        assert isinstance(step, ReadingStep)
        assert (sight.seen, sight.picture) == (step.seen, step.picture)


def test_a_course_gives_out_no_reading_with_its_sheets(
    source: CourseSource, case: Case
) -> None:
    sheet = name_sheet("a1")
    assert list_sights(source.sheet(sheet)) != source.show_readings(sheet, case)
    assert {each.seen for each in list_sights(source.sheet(sheet))} == {""}


def test_a_practice_sheet_is_whole(practice: PracticeSource, whole: Sheet) -> None:
    assert whole.gate == ()
    assert all(each.seen for each in list_sights(whole))
    assert not practice.is_permitted(whole.id)
