"""The place of a reading that is not shown yet."""

from __future__ import annotations

from workbook.front.held import HeldPad
from workbook.wire.answer import Typed


def test_it_shows_a_sentence_and_takes_nothing() -> None:
    pad = HeldPad()
    pad.write(Typed("12.5 mL"))
    assert pad.read() == Typed("")
    assert pad.body == (pad.note,)
    assert "shown once" in pad.note.value
