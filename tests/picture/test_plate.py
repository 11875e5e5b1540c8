"""The close-up."""

from __future__ import annotations

import pytest

from tests.support.eye import SCALES, some_values
from workbook.labfile.instrument import Kind, find_instrument
from workbook.picture import plate
from workbook.picture.scale import divisions_of, ends_of


@pytest.mark.parametrize("name", SCALES)
def test_two_lines_and_more_stand_within_the_plate(name: str) -> None:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    for value in some_values(name, 300):
        divisions = divisions_of(instrument, value)
        window = plate.look_closer(instrument, instrument.pattern, divisions)
        heights = [line.y for line in window.lines()]
        assert len(heights) >= 2
        assert plate.TOP < min(heights) <= max(heights) < plate.BOTTOM


@pytest.mark.parametrize("name", SCALES)
def test_no_line_is_drawn_where_the_scale_has_ended(name: str) -> None:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    for end in ends_of(instrument):
        window = plate.look_closer(instrument, instrument.pattern, end)
        assert window.starts != window.ends


def test_a_tenth_can_be_told_on_the_screen_of_a_telephone() -> None:
    # A picture of 340 units in the 300 px that a card leaves of 390: a tenth of a
    # division spans 7 px, and a line of the close-up 1.3.
    tenth_px = plate.PITCH / 10 * 300 / 340
    assert tenth_px > 5 * plate.TUBE.stroke * 300 / 340


@pytest.mark.parametrize("kind", Kind)
def test_the_eye_is_told_where_to_look(kind: Kind) -> None:
    drawn = plate.draw_plate(kind, "")
    point = "at the top" if kind is Kind.THERMOMETER else "at the lowest point"
    assert "Read at eye level" in drawn
    assert point in drawn


def test_the_frame_leads_to_the_corners_of_the_plate() -> None:
    drawn = plate.draw_frame(20, 60, 100, 10)
    assert "M15 90H65V110H15z" in drawn
    assert f"L{plate.LEFT:g} {plate.TOP:g}" in drawn
    assert f"L{plate.LEFT:g} {plate.BOTTOM:g}" in drawn
