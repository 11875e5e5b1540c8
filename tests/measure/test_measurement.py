"""A measurement converts, knows its places, and says how it was read."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from workbook.errors import DimensionError
from workbook.measure.dimension import LENGTH
from workbook.measure.measurement import Written, say_number
from workbook.measure.rounding import Ties, write
from workbook.measure.units import Unit, read_unit
from workbook.measure.written import Comma, read_written


def read(text: str) -> Written:
    """Return the measurement in a text."""
    return read_written(text, comma=Comma.ASK)


@pytest.mark.parametrize(
    ("text", "unit", "half"),
    [
        # By hand: half of the last written place, in the wanted unit.
        ("13.60 g", "g", "0.005"),
        ("13.60 g", "mg", "5"),
        ("13.60", "g", "0.005"),
        ("1360 g", "g", "0.5"),
        ("1.36e3 g", "g", "5"),
        ("25 °C", "K", "0.5"),
        ("1 h", "min", "30"),
    ],
)
def test_half_a_unit_of_the_last_place_is_converted(
    text: str, unit: str, half: str
) -> None:
    assert read(text).half_unit(read_unit(unit)) == Decimal(half)


def test_a_value_without_a_unit_is_taken_to_be_in_the_wanted_one() -> None:
    assert read("13.6").in_unit(read_unit("g")) == Decimal("13.6")


def test_a_value_is_converted() -> None:
    assert read("25 °C").in_unit(read_unit("K")) == Decimal("298.15")


def test_a_wrong_dimension_is_refused_everywhere() -> None:
    written, litre = read("13.6 g"), read_unit("L")
    for method in (written.in_unit, written.half_unit, written.known):
        with pytest.raises(DimensionError):
            method(litre)


def test_the_least_place_leaves_trailing_zeros_out() -> None:
    assert (read("1360").place, read("1360").least_place) == (0, 1)
    assert read("13.60").least_place == -2


def test_a_converted_value_keeps_its_relative_rounding() -> None:
    # NIST SP 811 (2008), B.7.2: 36 ft times 0.3048 m/ft is 10.9728 m, reported 11.0 m.
    foot = Unit((("ft", 1),), LENGTH, Fraction("30.48"))
    length = Written("36 ft", Decimal(36), 2, 2, 0, foot, None, "")
    assert write(length.known(read_unit("m")).round(Ties.EVEN)) == "11.0"


def test_moving_the_point_keeps_the_figures() -> None:
    known = read("25.80 mmol").known(read_unit("mol"))
    assert (known.figures, known.place) == (4, -5)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("13.6g", "13.6 g, 3 figures"),
        ("1360 g", "1360 g, 3 or 4 figures"),
        ("1000 g", "1000 g, 1 to 4 figures"),
        ("5 g", "5 g, 1 figure"),
        ("13.60", "13.60, 4 figures"),
        ("13.6 ± 0.1 grams", "13.6 ± 0.1 g, 3 figures"),
        ("304.4 g mol-1", "304.4 g/mol, 4 figures"),
        ("13.6 g soap", "13.6 g, 3 figures; 'soap' was left aside"),
        ("6.02e23", "6.02 × 10^23, 3 figures"),
        ("2.5e-7 mol", "2.5 × 10^-7 mol, 2 figures"),
    ],
)
def test_it_says_how_it_was_read(text: str, said: str) -> None:
    assert read(text).say() == said


def test_a_very_small_number_is_said_with_a_power() -> None:
    assert say_number(Decimal("0.000250")) == "0.000250"
    assert say_number(Decimal("0.0000250")) == "2.50 × 10^-5"
