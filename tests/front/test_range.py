"""The place to answer a range."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.front.stage import RANGE
from workbook.front.bell import Bell
from workbook.front.range import RangePad
from workbook.wire.answer import Chosen, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_both_ends_are_typed_into_one_box(browser: Browser) -> None:
    pad = RangePad(RANGE, Bell())
    browser.type(pad.entry.box, "131.2-134.6 °C")
    assert pad.read() == Typed("131.2-134.6 °C")
    assert pad.entry.box.description.endswith("with its unit (°C)")


def test_an_earlier_range_comes_back_and_another_kind_is_left_out() -> None:
    pad = RangePad(RANGE, Bell())
    pad.write(Typed("131.2-134.6 °C"))
    pad.write(Chosen(("a",)))
    assert pad.entry.text == "131.2-134.6 °C"
