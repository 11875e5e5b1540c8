"""A balance and its display."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.support.eye import DISPLAYS, read_digits
from workbook.labfile.instrument import find_instrument
from workbook.picture.balance import draw_balance
from workbook.picture.ink import element


@pytest.mark.parametrize("name", DISPLAYS)
def test_the_display_has_its_digits_and_its_unit(name: str) -> None:
    instrument = find_instrument(name)
    for shown in (instrument.lowest, instrument.capacity):
        digits = shown.quantize(instrument.step)
        drawn = draw_balance(instrument, digits)
        assert read_digits(element("svg", drawn)) == str(digits)
        assert ">g</text>" in drawn


@pytest.mark.parametrize("name", DISPLAYS)
def test_a_tared_balance_says_that_the_vessel_counts_as_nothing(name: str) -> None:
    drawn = draw_balance(find_instrument(name), Decimal("3.4"))
    is_tared = name.startswith("tared")
    assert (">NET<" in drawn) == is_tared
    assert ("the empty vessel was set to zero" in drawn) == is_tared


def test_an_analytical_balance_stands_in_glass() -> None:
    open_, closed = (
        draw_balance(find_instrument(name), Decimal("3.4"))
        for name in ("balance, 0.01 g", "balance, 0.001 g")
    )
    assert closed.count("<path") == open_.count("<path") + 1
