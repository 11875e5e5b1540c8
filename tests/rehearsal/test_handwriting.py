"""Every way to type a number is read back as that number."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from workbook.measure.units import ONE, read_unit
from workbook.measure.written import Comma, read_answer
from workbook.rehearsal.handwriting import spellings, write_down

if TYPE_CHECKING:
    import random

VALUES = ("12.5", "0.012861", "304.45", "9.40", "1360", "0.0000452", "-0.490", "80.0")


@pytest.mark.parametrize("comma", Comma)
@pytest.mark.parametrize("symbol", ["g", "mL", "mol", "g/mol", "%", "mol/L", "°C"])
def test_what_is_typed_is_read_as_it_was_meant(
    chance: random.Random, comma: Comma, symbol: str
) -> None:
    unit = read_unit(symbol)
    for text in VALUES * 20:
        typed = write_down(Decimal(text), unit, comma, chance)
        assert read_answer(typed, unit, comma=comma).in_unit(unit) == Decimal(text)


def test_every_digit_is_typed(chance: random.Random) -> None:
    gram = read_unit("g")
    for _ in range(60):
        typed = write_down(Decimal("9.40"), gram, Comma.ASK, chance)
        written = read_answer(typed, gram, comma=Comma.ASK)
        assert written.least_figures <= 3 <= written.figures


def test_points_commas_powers_and_spaces_all_come_up(chance: random.Random) -> None:
    typed = "\n".join(
        write_down(Decimal("12845.7"), read_unit("g"), Comma.DECIMAL, chance)
        for _ in range(200)
    )
    for piece in ("12845.7", "12845,7", "12 845", "e", "E+", "× 10^", "·10", "\xa0"):
        assert piece in typed


# SI Brochure, 9th edition, table 7: milli is a thousandth, kilo a thousand.
def test_prefixes_move_the_point() -> None:
    found = dict(spellings(read_unit("g")))
    assert (found["mg"], found["g"], found["kg"]) == (3, 0, -3)
    assert dict(spellings(read_unit("g/mol")))["g mol-1"] == 0


def test_a_plain_number_and_a_temperature_have_one_spelling() -> None:
    assert spellings(ONE) == (("", 0),)
    assert spellings(read_unit("°C")) == (("°C", 0),)
