"""What stands in a tube, and where it is read."""

from __future__ import annotations

import pytest

from tests.support.eye import find_class, numbers_in, parse
from workbook.labfile.instrument import Kind
from workbook.picture.filling import draw_column, draw_meniscus, fill_tube
from workbook.picture.glass import Glass
from workbook.picture.ink import COLUMN, LIQUID, element
from workbook.picture.tube import Tube

TUBE = Tube(left=10, right=110, climb=8, size=12, stroke=1)


def heights(drawn: str) -> tuple[float, float]:
    """Return the ends and the middle of the surface: a cubic at its half way."""
    (path,) = find_class(parse(element("svg", drawn)), "wb-surface")
    y0, y1, y2, y3 = numbers_in(path.get("d", ""))[1::2]
    assert y0 == y3
    return y0, (y0 + 3 * y1 + 3 * y2 + y3) / 8


def test_a_meniscus_is_lowest_in_the_middle_and_climbs_the_wall() -> None:
    wall, middle = heights(draw_meniscus(TUBE, 200, "V300H10"))
    assert wall == 192
    assert middle == pytest.approx(200, abs=0.01)


def test_a_column_is_highest_in_the_middle() -> None:
    shoulder, middle = heights(draw_column(TUBE, 200, 300))
    assert middle == pytest.approx(200, abs=0.01)
    assert shoulder > middle


@pytest.mark.parametrize(
    ("kind", "colour"), [(Kind.BURETTE, LIQUID), (Kind.THERMOMETER, COLUMN)]
)
def test_each_kind_is_filled_with_its_own(kind: Kind, colour: str) -> None:
    glass = Glass(kind, 60, 30, 400, 1, has_head=True, has_foot=True)
    assert colour in fill_tube(TUBE, glass, 200)
