"""The place to answer a reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.front.stage import READING
from workbook.front.bell import Bell
from workbook.front.reading import SIZES, ReadingPad
from workbook.wire.answer import Chosen, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser

#: What a checker draws, at its shortest.
PICTURE = (
    '<svg xmlns="http://www.w3.org/2000/svg" class="wb-picture"><title>A</title></svg>'
)
PICTURED = msgspec.structs.replace(READING, picture=PICTURE)


def test_without_a_picture_the_words_stand_over_the_box() -> None:
    face, box = ReadingPad(READING, Bell()).body
    assert READING.instrument in face.value
    assert READING.seen in face.value
    assert "<details>" not in face.value
    assert box.description == "Your reading, with its unit (mL)"


def test_a_picture_stands_over_its_words_which_are_folded_away() -> None:
    face = ReadingPad(PICTURED, Bell()).face.value
    picture, _, folded = face.partition("<details>")
    assert PICTURE in picture
    assert READING.seen not in picture
    assert READING.seen in folded


@pytest.mark.parametrize("part", ["seen", "instrument"])
def test_what_is_seen_can_t_put_elements_into_the_page(part: str) -> None:
    for step in (READING, PICTURED):
        hostile = msgspec.structs.replace(step, **{part: "<script>"})
        assert "<script>" not in ReadingPad(hostile, Bell()).face.value


def test_a_picture_that_could_run_something_is_left_out() -> None:
    hostile = PICTURE.replace("<title>", '<title onclick="alert(1)">')
    step = msgspec.structs.replace(READING, picture=hostile)
    assert "onclick" not in ReadingPad(step, Bell()).face.value
    assert READING.seen in ReadingPad(step, Bell()).face.value


def test_a_picture_grows_and_shrinks_in_steps_and_stops_at_the_ends(
    browser: Browser,
) -> None:
    pad = ReadingPad(PICTURED, Bell())
    seen = []
    for button in [pad.larger] * len(SIZES) + [pad.smaller] * len(SIZES):
        browser.click(button)
        seen.append(next(s for s in SIZES if f"wb-size-{s}" in pad.face.value))
    assert seen == [*SIZES[1:], SIZES[-1], *SIZES[-2::-1], SIZES[0]]


def test_the_size_changes_nothing_that_is_typed(browser: Browser) -> None:
    pad = ReadingPad(PICTURED, Bell())
    browser.type(pad.entry.box, "12.0 mL")
    browser.click(pad.larger)
    assert pad.read() == Typed("12.0 mL")


def test_the_reading_is_what_is_typed_and_comes_back(browser: Browser) -> None:
    pad, again = ReadingPad(READING, Bell()), ReadingPad(READING, Bell())
    browser.type(pad.entry.box, "12.0 mL")
    again.write(pad.read())
    again.write(Chosen(("a",)))
    assert again.read() == Typed("12.0 mL")
