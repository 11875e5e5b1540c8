"""A pipette with one ring."""

from __future__ import annotations

from tests.support.eye import find_class, numbers_in, parse
from workbook.labfile.instrument import find_instrument
from workbook.picture.ink import element
from workbook.picture.pipette import draw_pipette

DRAWN = parse(
    element("svg", draw_pipette(find_instrument("volumetric pipette, 25 mL")))
)


def test_the_meniscus_touches_the_ring_in_both_views() -> None:
    for view in ("wb-whole", "wb-close"):
        (root,) = find_class(DRAWN, view)
        (ring,) = find_class(root, "wb-long")
        (surface,) = find_class(root, "wb-surface")
        y0, y1, y2, y3 = numbers_in(surface.get("d", ""))[1::2]
        lowest = (y0 + 3 * y1 + 3 * y2 + y3) / 8
        assert abs(numbers_in(ring.get("d", ""))[1] - lowest) < 0.01


def test_its_volume_and_limit_are_printed_on_the_bulb() -> None:
    (printed,) = find_class(DRAWN, "wb-print")
    # ASTM E969, class A of 25 mL: 0.03 mL, from memory.
    assert [text.text for text in printed] == ["25 mL", "A  20 °C", "±0.03 mL"]
