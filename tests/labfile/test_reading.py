"""Rules on readings: the instrument can show what is drawn."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.reading import readings_can_be_shown


def sentences(draw: str) -> list[str]:
    """Return what is said when the acid is drawn so, and read in a 50 mL cylinder."""
    file = read_tables(("30.0 .. 45.0 mL", draw))
    return [said for _, said in readings_can_be_shown(file)]


@pytest.mark.parametrize(
    "draw", ["10 .. 50 mL", "30 .. 45 cm3", "0.030 .. 0.045 L", "30.0 .. 30.1 mL"]
)
def test_a_range_that_the_scale_holds_is_passed(draw: str) -> None:
    assert sentences(draw) == []


@pytest.mark.parametrize("draw", ["30 .. 50.1 mL", "9.9 .. 15 mL", "0.03 .. 0.06 L"])
def test_a_range_that_leaves_the_scale_is_found(draw: str) -> None:
    (said,) = sentences(draw)
    assert said.endswith("but 'cylinder, 50 mL' shows 10 to 50 mL.")


def test_a_range_of_one_value_is_found() -> None:
    (said,) = sentences("29.98 .. 30.03 mL")
    assert said.startswith("the range holds 1 of the values")


def test_a_reading_that_follows_from_others_has_no_range_to_check() -> None:
    file = read_tables(("share * salt_yield", "1000 * share * salt_yield"))
    assert list(readings_can_be_shown(file)) == []
