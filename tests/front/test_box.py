"""A place to answer with one text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.bell import Bell
from workbook.front.box import BoxPad
from workbook.wire.answer import Chosen, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_what_is_typed_is_read_as_it_was_typed(browser: Browser) -> None:
    pad = BoxPad("Your answer", Bell())
    browser.type(pad.entry.box, "1.50 g")
    assert pad.read() == Typed("1.50 g")
    assert pad.body == (pad.entry.box,)


def test_an_earlier_text_comes_back_and_another_kind_is_left_out() -> None:
    pad = BoxPad("Your answer", Bell())
    pad.write(Typed("1.50 g"))
    pad.write(Chosen(("a",)))
    assert pad.entry.text == "1.50 g"
