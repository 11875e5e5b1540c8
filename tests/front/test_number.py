"""The place to answer a number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.front.stage import NUMBER
from workbook.front.bell import Bell
from workbook.front.number import NumberPad
from workbook.wire.answer import Chosen, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_the_answer_is_what_is_typed(browser: Browser) -> None:
    pad = NumberPad(NUMBER, Bell())
    browser.type(pad.entry.box, " 71.0 % ")
    assert pad.read() == Typed(" 71.0 % ")


def test_an_earlier_text_comes_back_and_another_kind_is_left_out() -> None:
    pad = NumberPad(NUMBER, Bell())
    pad.write(Typed("71.0 %"))
    pad.write(Chosen(("a",)))
    assert pad.entry.text == "71.0 %"
