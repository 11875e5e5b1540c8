"""The place to tick one option, or several."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.front.stage import ONE, SEVERAL
from workbook.front.bell import Bell
from workbook.front.choice import OnePad, SeveralPad, choose_pad
from workbook.wire.answer import Chosen, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser
    from workbook.wire.sheet import ChoiceStep


def test_nothing_is_ticked_at_the_start() -> None:
    assert OnePad(ONE.options, Bell()).read() == Chosen(())
    assert SeveralPad(SEVERAL, Bell()).read() == Chosen(())


def test_one_option_is_ticked(browser: Browser) -> None:
    pad = OnePad(ONE.options, Bell())
    browser.choose(pad.buttons, 1)
    assert pad.read() == Chosen(("wax",))


def test_several_are_ticked_in_the_order_of_the_sheet(browser: Browser) -> None:
    pad = SeveralPad(SEVERAL, Bell())
    for name in ("gloves", "goggles"):
        browser.tick(pad.ticks[name])
    assert pad.read() == Chosen(("goggles", "gloves"))


@pytest.mark.parametrize("step", [ONE, SEVERAL])
def test_earlier_ticks_come_back_and_unknown_ones_are_left_out(
    step: ChoiceStep,
) -> None:
    pad = choose_pad(step, Bell())
    first = step.options[0].id
    pad.write(Chosen(("gone", first)))
    pad.write(Typed("another kind"))
    assert pad.read() == Chosen((first,))


def test_an_earlier_answer_without_ticks_clears_them() -> None:
    pad = OnePad(ONE.options, Bell())
    pad.write(Chosen(("wax",)))
    pad.write(Chosen(()))
    assert pad.read() == Chosen(())


def test_each_option_has_its_own_label() -> None:
    ticks = SeveralPad(SEVERAL, Bell()).ticks
    assert [tick.description for tick in ticks.values()] == ["goggles", "gloves"]


def test_a_tick_rings_the_bell(browser: Browser) -> None:
    rung: list[int] = []
    bell = Bell(change=lambda: rung.append(1))
    browser.choose(OnePad(ONE.options, bell).buttons, 0)
    browser.tick(SeveralPad(SEVERAL, bell).ticks["gloves"])
    assert rung == [1, 1]
