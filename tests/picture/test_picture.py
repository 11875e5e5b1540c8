"""The picture of an instrument, read back by an eye that does not know its making."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.support.eye import (
    DISPLAYS,
    SCALES,
    find_class,
    look,
    parse,
    read_close,
    read_digits,
    read_scale,
    read_words,
    some_values,
)
from workbook.errors import MatterError
from workbook.labfile.instrument import find_instrument, known_instruments
from workbook.measure.rounding import write
from workbook.picture.picture import draw_picture
from workbook.picture.words import print_on, say

if TYPE_CHECKING:
    from xml.etree import ElementTree as ET

#: Bytes that a picture may take on a sheet [-].
LIGHT = 8000


@pytest.mark.parametrize("name", SCALES)
def test_picture_and_words_give_back_what_was_drawn(name: str) -> None:
    # Within a fifth of a division is asked; the drawing keeps to a fiftieth. Words
    # count tenths of a division, and every value here is a whole number of them.
    instrument = find_instrument(name)
    for value in some_values(name):
        picture = parse(draw_picture(instrument, value, "r"))
        whole = look(instrument, picture, "wb-whole")
        close = look(instrument, picture, "wb-close")
        divisions = float(value / instrument.division)
        off = read_scale(whole) / float(instrument.division) - divisions
        past = read_close(close, reads_down=instrument.reads_down) - divisions % 1
        assert abs(off) < 0.02
        # Just under a line is just over the one before.
        assert min(abs(past), 1 - abs(past)) < 0.02
        assert read_words(instrument, say(instrument, value)) == value


@pytest.mark.parametrize("name", SCALES)
def test_some_numbers_stand_around_every_value(name: str) -> None:
    instrument = find_instrument(name)
    for value in some_values(name, 200):
        picture = parse(draw_picture(instrument, value, "r"))
        seen = look(instrument, picture, "wb-whole")
        assert min(seen.numbers) <= value <= max(seen.numbers)
        assert len(seen.numbers) >= 4


@pytest.mark.parametrize("name", DISPLAYS)
def test_a_display_shows_every_digit_in_the_picture_and_in_words(name: str) -> None:
    instrument = find_instrument(name)
    for value in some_values(name):
        assert read_digits(draw_picture(instrument, value, "r")) == write(value)
        assert say(instrument, value) == f"{write(value)} g"


def texts_of(root: ET.Element) -> list[str]:
    """Return every text of a picture, and what its attributes say but geometry."""
    geometry = {"d", "x", "y", "cx", "cy", "r", "rx", "width", "height", "transform"}
    geometry |= {"stroke-width", "stroke-dasharray", "font-size", "viewBox"}
    return [
        each
        for node in root.iter()
        for each in (
            node.text or "",
            *(value for key, value in node.items() if key not in geometry),
        )
    ]


@pytest.mark.parametrize("name", SCALES)
def test_no_text_of_a_scale_states_the_value(name: str) -> None:
    instrument = find_instrument(name)
    # The limit of error is printed on every glass, whatever it holds.
    printed = {*print_on(instrument).split(", "), f"A 20 °C ±{instrument.limit} mL"}
    for value in some_values(name, 300):
        svg = draw_picture(instrument, value, "r")
        texts = [text for text in texts_of(parse(svg)) if text.strip() not in printed]
        stated = [text for text in texts if write(value) in text.split()]
        assert stated == []
        assert "<!--" not in svg


@pytest.mark.parametrize("name", known_instruments())
def test_a_picture_is_light_and_has_a_title_and_a_description(name: str) -> None:
    instrument = find_instrument(name)
    for value in (instrument.lowest, instrument.capacity):
        svg = draw_picture(instrument, value, "oil")
        root = parse(svg)
        assert len(svg.encode()) < LIGHT
        named = [node.get("id") for node in root.iter() if node.get("id")]
        assert root.get("aria-labelledby", "").split() == named
        assert root.get("role") == "img"


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("cylinder, 25 mL", "4.9"),
        ("cylinder, 25 mL", "25.1"),
        ("burette, 50 mL", "-0.01"),
        ("thermometer, 110 °C", "-10.1"),
        ("volumetric pipette, 25 mL", "24.99"),
        ("balance, 0.01 g", "400.01"),
        ("balance, 0.01 g", "NaN"),
        ("balance, 0.01 g", "Infinity"),
    ],
)
def test_a_value_off_the_scale_is_refused_and_not_told(name: str, value: str) -> None:
    with pytest.raises(MatterError, match="lies off the scale") as caught:
        draw_picture(find_instrument(name), Decimal(value), "r")
    assert value not in str(caught.value)


def test_a_value_between_two_steps_is_refused_and_not_told() -> None:
    with pytest.raises(MatterError, match=r"read to 0\.1 mL") as caught:
        draw_picture(find_instrument("cylinder, 25 mL"), Decimal("12.34"), "r")
    assert "12.34" not in str(caught.value)


def test_a_name_can_t_put_elements_into_the_picture() -> None:
    svg = draw_picture(
        find_instrument("cylinder, 25 mL"), Decimal("12.6"), 'a"><script>'
    )
    assert "<script" not in svg
    assert parse(svg).get("aria-labelledby") == 'wb-a"><script>-is wb-a"><script>-shows'


def test_two_readings_of_one_burette_share_no_name() -> None:
    burette = find_instrument("burette, 50 mL")
    ids = [
        node.get("id")
        for name, value in (("before", "0.36"), ("after", "23.18"))
        for node in parse(draw_picture(burette, Decimal(value), name)).iter()
        if node.get("id")
    ]
    assert len(set(ids)) == len(ids) == 4


def test_a_figure_of_the_whole_stands_beside_a_part_only() -> None:
    whole, part = (
        draw_picture(find_instrument(name), Decimal("12.60"), "r")
        for name in ("cylinder, 25 mL", "burette, 50 mL")
    )
    assert find_class(parse(whole), "wb-figure") == []
    assert len(find_class(parse(part), "wb-figure")) == 1
