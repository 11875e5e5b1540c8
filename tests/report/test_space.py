"""How much of a page things take."""

from __future__ import annotations

import pytest

from workbook.report.space import (
    balance,
    count_lines,
    measure_picture,
    measure_reading,
    measure_step,
)
from workbook.wire.sheet import ChoiceStep, NumberStep, Option, ReadingStep

GLASS = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 340 440"/>'

DISPLAY = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 72 340 184"/>'


def make_reading(picture: str) -> ReadingStep:
    return ReadingStep(
        id="dish",
        asks="Read the mass.",
        unit="g",
        instrument="balance",
        seen="The display shows 4 g.",
        picture=picture,
    )


def make_choice(*texts: str) -> ChoiceStep:
    options = tuple(Option(text, text) for text in texts)
    return ChoiceStep(id="why", asks="Why?", options=options, several=False)


@pytest.mark.parametrize(
    ("heights", "columns", "height"),
    [
        ((), 2, 0),
        ((30,), 2, 30),
        # By hand: 40 + 30 beside 50, in this order; no other break is lower.
        ((40, 30, 50), 2, 70),
        # None of them is broken, however many columns there are.
        ((90, 10), 4, 90),
        # 10 + 10 + 10 beside 30; 40 and 20 would be higher.
        ((10, 10, 10, 30), 2, 30),
    ],
)
def test_columns_are_as_low_as_whole_pieces_let_them(
    heights: tuple[float, ...], columns: int, height: float
) -> None:
    assert balance(heights, columns) == height


def test_a_text_takes_lines_of_whole_words() -> None:
    # Seven letters hold "one two", and then "three" begins a line of its own.
    assert count_lines("one two three", 7) == 2
    assert count_lines("", 7) == 1


def test_a_glass_is_printed_larger_than_a_display() -> None:
    # 41 x 440 / 340 = 53.06 and 30 x 184 / 340 = 16.24, in millimetres.
    assert measure_picture(make_reading(GLASS)) == pytest.approx((41, 53.06), abs=0.01)
    assert measure_picture(make_reading(DISPLAY)) == pytest.approx(
        (30, 16.24), abs=0.01
    )
    assert measure_picture(make_reading("")) == (0, 0)


def test_an_instrument_takes_its_picture_and_its_words() -> None:
    taller = measure_reading(make_reading(GLASS)) - measure_reading(
        make_reading(DISPLAY)
    )
    assert taller == pytest.approx(53.06 - 16.24, abs=0.01)


def test_short_options_stand_beside_each_other() -> None:
    short = measure_step(make_choice("yes", "no"), "Tick one.")
    long = measure_step(make_choice("y" * 40, "n" * 40), "Tick one.")
    question = measure_step(NumberStep(id="n", asks="Why?", unit=""), "Tick one.")
    # One line, and a line each.
    assert long - question == pytest.approx(2 * (short - question))
