"""Digits of seven bars."""

from __future__ import annotations

import pytest

from tests.support.eye import parse, read_digits
from workbook.picture.digit import draw_digits
from workbook.picture.ink import element


@pytest.mark.parametrize("text", ["0.0", "8.8", "1234.5678", "9.06", "571.2"])
def test_bars_are_read_back_as_the_digits(text: str) -> None:
    assert read_digits(element("svg", draw_digits(text, 200, 10))) == text


def test_the_last_digit_stands_at_the_same_place_whatever_stands_before() -> None:
    places = {
        parse(draw_digits(text, 200, 10))[-1].get("transform")
        for text in ("0.01", "119.25")
    }
    assert places == {"translate(178 10)"}
