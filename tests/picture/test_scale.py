"""Which lines of a scale stand in a window, and where."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.support.eye import SCALES, some_values
from workbook.labfile.instrument import find_instrument
from workbook.picture.scale import (
    ROOM,
    Length,
    Window,
    choose_part,
    divisions_of,
    ends_of,
)


def make_window(name: str, first: int, last: int) -> Window:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    return Window(instrument, instrument.pattern, first, last, first, 100, 7)


# ISO 384, from memory: divisions of 1 (times a power of ten) have every tenth line
# long and the fifth between of middle length; divisions of 5 have every tenth line
# long and every second between of middle length.
@pytest.mark.parametrize(
    ("name", "pattern"),
    [("burette, 50 mL", "LssssMssssL"), ("cylinder, 25 mL", "LsMsMsMsMsL")],
)
def test_lines_have_three_lengths_in_the_order_of_the_pattern(
    name: str, pattern: str
) -> None:
    lengths = [line.length for line in make_window(name, 20, 30).lines()]
    signs = {Length.SHORT: "s", Length.MIDDLE: "M", Length.LONG: "L"}
    assert "".join(signs[length] for length in lengths) == pattern


def test_long_lines_alone_are_numbered() -> None:
    lines = make_window("cylinder, 25 mL", 10, 30).lines()
    assert [line.label for line in lines if line.label] == ["5", "10", "15"]
    assert all(bool(line.label) == (line.length is Length.LONG) for line in lines)


def test_numbers_grow_upwards_on_a_cylinder_and_downwards_on_a_burette() -> None:
    # Coordinates of a drawing grow downwards: 7 units a division, from 100.
    up, down = (
        [line.y for line in make_window(name, 20, 22).lines()]
        for name in ("cylinder, 50 mL", "burette, 50 mL")
    )
    assert (up, down) == ([100, 93, 86], [100, 107, 114])


def test_long_lines_are_the_same_lines_without_their_numbers() -> None:
    window = make_window("thermometer, 110 °C", -5, 33)
    expected = [line.y for line in window.lines() if line.length is Length.LONG]
    assert [line.y for line in window.long_lines()] == expected


def test_a_value_is_so_many_divisions_from_zero() -> None:
    instrument = find_instrument("cylinder, 25 mL")
    # 12.6 mL in divisions of 0.5 mL.
    assert divisions_of(instrument, Decimal("12.6")) == pytest.approx(25.2)
    assert ends_of(instrument) == (10, 50)


@pytest.mark.parametrize("name", SCALES)
def test_a_part_runs_between_numbers_and_holds_the_value(name: str) -> None:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    for value in some_values(name, 200):
        divisions = divisions_of(instrument, value)
        part = choose_part(instrument, instrument.pattern, divisions)
        assert part[0] % 10 == part[-1] % 10 == 0
        assert part[0] <= divisions <= part[-1] <= part[0] + ROOM


@pytest.mark.parametrize("name", SCALES)
def test_the_value_is_near_an_end_of_its_part_only_where_the_scale_ends(
    name: str,
) -> None:
    instrument = find_instrument(name)
    assert instrument.pattern is not None
    for value in some_values(name, 200):
        divisions = divisions_of(instrument, value)
        part = choose_part(instrument, instrument.pattern, divisions)
        low, high = ends_of(instrument)
        assert part[0] == low or divisions - part[0] >= ROOM / 2 - 5
        assert part[-1] == high or part[-1] - divisions >= ROOM / 2 - 5


def test_a_window_knows_whether_the_scale_begins_and_ends_in_it() -> None:
    window = make_window("burette, 50 mL", 0, 50)
    assert (window.starts, window.ends) == (True, False)
    assert (window.top, window.bottom) == (100, 450)
