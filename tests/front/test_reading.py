"""The place to answer a reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from tests.front.stage import READING
from workbook.front.bell import Bell
from workbook.front.reading import ReadingPad
from workbook.wire.answer import Chosen, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_the_instrument_and_what_it_shows_stand_over_the_box() -> None:
    face, box = ReadingPad(READING, Bell()).body
    assert READING.instrument in face.value
    assert READING.seen in face.value
    assert box.description == "Your reading, with its unit (mL)"


def test_what_is_seen_can_t_put_elements_into_the_page() -> None:
    step = msgspec.structs.replace(READING, seen="<script>")
    assert "<script>" not in ReadingPad(step, Bell()).face.value


def test_the_reading_is_what_is_typed_and_comes_back(browser: Browser) -> None:
    pad, again = ReadingPad(READING, Bell()), ReadingPad(READING, Bell())
    browser.type(pad.entry.box, "12.0 mL")
    again.write(pad.read())
    again.write(Chosen(("a",)))
    assert again.read() == Typed("12.0 mL")
