"""The shapes of glassware around a scale."""

from __future__ import annotations

import pytest

from workbook.labfile.instrument import Kind
from workbook.picture.glass import HALF, Glass, draw_glass, fill_foot


def make_glass(
    kind: Kind, *, has_head: bool = True, has_foot: bool = True, scale: float = 1
) -> Glass:
    return Glass(kind, 100, 30, 400, scale, has_head, has_foot)


@pytest.mark.parametrize("kind", HALF)
def test_ends_stand_where_the_tube_ends(kind: Kind) -> None:
    drawn = draw_glass(make_glass(kind))
    assert "translate(100 30) scale(1)" in drawn
    assert "translate(100 400) scale(1)" in drawn


@pytest.mark.parametrize("kind", HALF)
def test_a_part_is_broken_off_where_the_instrument_goes_on(kind: Kind) -> None:
    whole = draw_glass(make_glass(kind))
    upper = draw_glass(make_glass(kind, has_foot=False))
    lower = draw_glass(make_glass(kind, has_head=False))
    assert len({whole, upper, lower}) == 3


@pytest.mark.parametrize("kind", HALF)
def test_a_foot_is_filled_where_there_is_one(kind: Kind) -> None:
    assert "path" in fill_foot(make_glass(kind))
    assert fill_foot(make_glass(kind, has_foot=False)) == ""


def test_a_small_tube_is_narrower() -> None:
    glass = make_glass(Kind.BURETTE, scale=0.5)
    assert (glass.left, glass.right) == (87.5, 112.5)
