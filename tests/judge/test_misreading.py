"""A misreading is carried on; somebody else's value is not."""

from __future__ import annotations

import pytest

from workbook.graph.slip import SlipKind
from workbook.judge.misreading import find_misreadings, is_misreading
from workbook.labfile.instrument import find_instrument


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("cylinder, 25 mL", 12.9, 12.6),  # the rim of the meniscus
        ("cylinder, 25 mL", 13.6, 12.6),  # two divisions of 0.5 mL: the wrong line
        ("burette, 50 mL", 24.69, 24.31),  # 0.31 counted upwards from below 25
        ("burette, 50 mL", 25.69, 24.31),  # 0.69 counted on beyond 25
        ("balance, 0.01 g", 43.35, 43.53),  # two digits exchanged
        ("balance, 0.01 g", 43.58, 43.53),  # one digit mistyped
    ],
)
def test_a_misreading_is_known(name: str, typed: float, shown: float) -> None:
    assert is_misreading(find_instrument(name), typed, shown)


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("cylinder, 25 mL", 13.8, 12.6),  # more than two divisions away
        ("cylinder, 25 mL", 24.4, 12.6),  # a cylinder is not read downwards
        ("burette, 50 mL", 31.02, 24.31),
        ("balance, 0.01 g", 46.24, 43.53),  # three digits differ: another dish
        ("balance, 0.01 g", 34.53, 43.35),  # both pairs exchanged
        ("balance, 0.01 g", 4.35, 43.53),  # a digit is missing
    ],
)
def test_the_value_of_another_instrument_is_not(
    name: str, typed: float, shown: float
) -> None:
    assert not is_misreading(find_instrument(name), typed, shown)


def led_to(kind: SlipKind, name: str, shown: float) -> list[float]:
    """Return what one kind of misreading makes of a value."""
    found = find_misreadings(find_instrument(name), shown)
    return sorted(float(each.value) for each in found if each.kind is kind)


# Slips R01, R03, R05, R06 and R13 of the notes on the trade, by their formulas.


def test_the_rim_stands_as_high_as_it_is_drawn() -> None:
    # 26 of the 86 that a division takes in the close-up: 0.30 mL, and 0.030 mL.
    (cylinder,) = led_to(SlipKind.MENISCUS_RIM, "cylinder, 50 mL", 34.6)
    (burette,) = led_to(SlipKind.MENISCUS_RIM, "burette, 50 mL", 24.37)
    assert cylinder == pytest.approx(34.9, abs=0.01)
    assert burette == pytest.approx(24.34, abs=0.001)
    assert led_to(SlipKind.MENISCUS_RIM, "thermometer, 110 °C", 34.6) == []


def test_a_line_is_taken_for_the_reading() -> None:
    assert led_to(SlipKind.LINE_BELOW, "burette, 50 mL", 24.37) == [24.3]
    assert led_to(SlipKind.NEAREST_LINE, "burette, 50 mL", 24.37) == [24.4]


def test_a_division_is_taken_for_more_or_for_less() -> None:
    # 4.6 divisions past 30 mL, each worth 1 mL and taken for 0.2, 0.5 or 2 mL.
    found = led_to(SlipKind.DIVISION_MISJUDGED, "cylinder, 50 mL", 34.6)
    assert found == [30.92, 32.3, 39.2]
    # 7.3 divisions past 40 mL: with 2 mL one would be past the next number.
    found = led_to(SlipKind.DIVISION_MISJUDGED, "cylinder, 50 mL", 47.3)
    assert found == [41.46, 43.65]


def test_a_scale_that_grows_downwards_is_counted_upwards() -> None:
    # 2 × 25 - 24.31, and 24 + 25 - 24.31.
    found = led_to(SlipKind.COUNTED_UPWARDS, "burette, 50 mL", 24.31)
    assert found == [24.69, 25.69]
    # Its numbers stand every 0.1 mL: 2 × 0.5 - 0.437, and 0.4 + 0.5 - 0.437.
    pipette = led_to(SlipKind.COUNTED_UPWARDS, "graduated pipette, 1 mL", 0.437)
    assert pipette == [0.463, 0.563]
    assert led_to(SlipKind.COUNTED_UPWARDS, "cylinder, 50 mL", 34.6) == []


def test_digits_side_by_side_change_places() -> None:
    found = led_to(SlipKind.DIGITS_SWAPPED, "balance, 0.01 g", 43.53)
    assert found == [34.53, 43.35, 45.33]
    # Nobody types 01.3.
    assert led_to(SlipKind.DIGITS_SWAPPED, "cylinder, 25 mL", 10.3) == [13.0]
    assert led_to(SlipKind.DIGITS_SWAPPED, "volumetric pipette, 25 mL", 25) == []
