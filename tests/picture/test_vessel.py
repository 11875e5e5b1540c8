"""Glassware with a scale, whole or in part."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest

from tests.support.eye import SCALES
from workbook.labfile.instrument import find_instrument
from workbook.picture.scale import divisions_of
from workbook.picture.vessel import draw_vessel, measure_vessel


def draw(name: str, shown: str) -> str:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    divisions = divisions_of(instrument, Decimal(shown))
    return draw_vessel(instrument, instrument.pattern, divisions)


@pytest.mark.parametrize(
    ("name", "shown", "labels"),
    [
        ("cylinder, 25 mL", "12.6", "5 10 15 20 25"),
        ("cylinder, 100 mL", "93.4", "50 60 70 80 90 100"),
        ("burette, 50 mL", "23.18", "21 22 23 24 25 26"),
        ("thermometer, 110 °C", "-3.4", "−10 0 10 20 30 40"),
    ],
)
def test_the_numbers_around_the_value_are_drawn(
    name: str, shown: str, labels: str
) -> None:
    whole = draw(name, shown).partition('<g class="wb-close"')[0]
    found = [part.partition("<")[0] for part in whole.split(">") if "</text" in part]
    assert found == labels.split()


@pytest.mark.parametrize(
    ("name", "shown", "is_part"),
    [
        ("cylinder, 25 mL", "12.6", False),
        ("cylinder, 50 mL", "38.0", False),
        ("cylinder, 10 mL", "6.37", True),
        ("burette, 50 mL", "0.00", True),
    ],
)
def test_a_long_scale_has_a_figure_beside_it(
    name: str, shown: str, *, is_part: bool
) -> None:
    assert ('class="wb-figure"' in draw(name, shown)) == is_part


@pytest.mark.parametrize("name", SCALES)
def test_nothing_is_drawn_below_where_it_is_said_to_end(name: str) -> None:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    for value in (instrument.lowest, instrument.capacity):
        divisions = divisions_of(instrument, value)
        end = measure_vessel(instrument, instrument.pattern, divisions)
        drawn = draw_vessel(instrument, instrument.pattern, divisions)
        plain = re.findall(r'<path d="([^"]+)" fill="none"[^>]*/>', drawn)
        heights = [float(y) for data in plain for y in re.findall(r"V([\d.]+)", data)]
        assert 380 < max(heights) <= end < 480
