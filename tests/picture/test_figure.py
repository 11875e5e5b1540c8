"""The small figure of a whole instrument."""

from __future__ import annotations

import pytest

from tests.support.eye import find_class, numbers_in, parse
from workbook.labfile.instrument import find_instrument
from workbook.picture.figure import draw_figure
from workbook.picture.ink import element
from workbook.picture.scale import Window


@pytest.mark.parametrize(
    ("name", "first", "divisions", "share"),
    # By hand: how far down the figure's scale each stands. The scale of the cylinder
    # is drawn from zero, its floor.
    [
        ("burette, 50 mL", 210, 231.8, 231.8 / 500),
        ("thermometer, 250 °C", 110, 134.7, (250 - 134.7) / 260),
        ("cylinder, 100 mL", 50, 93.4, (100 - 93.4) / 100),
    ],
)
def test_it_is_filled_as_high_as_the_instrument(
    name: str, first: int, divisions: float, share: float
) -> None:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    window = Window(instrument, instrument.pattern, first, first + 50, first, 0, 7)
    drawn = parse(element("svg", draw_figure(window, divisions)))
    (surface,) = find_class(drawn, "wb-surface")
    (lines,) = find_class(drawn, "wb-long")
    marks = numbers_in(lines.get("d", ""))[1::3]
    pitch = (max(marks) - min(marks)) / (len(marks) - 1)
    span = pitch * (len(marks) - 1 + (1 if name.startswith("cylinder") else 0))
    y0, y1, *_ = numbers_in(surface.get("d", ""))[1::2]
    assert ((y0 + 3 * y1) / 4 - min(marks)) / span == pytest.approx(share, abs=0.001)
