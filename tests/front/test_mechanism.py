"""The place to lay the steps of a mechanism."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.front.stage import MECHANISM
from workbook.front.bell import Bell
from workbook.front.mechanism import MechanismPad
from workbook.wire.answer import Ordered, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_a_card_says_what_happens_in_words_and_formulas() -> None:
    pool = MechanismPad(MECHANISM, Bell()).deck.pool
    assert pool[2].description == "the salt parts: AB → A⁺ + B⁻"


def test_the_balance_follows_what_is_placed(browser: Browser) -> None:
    rung: list[int] = []
    pad = MechanismPad(MECHANISM, Bell(change=lambda: rung.append(1)))
    browser.click(pad.deck.pool[2])
    assert pad.read() == Ordered(("parts",))
    assert "AB → A⁺ + B⁻" in pad.balance.value
    browser.click(pad.deck.rows[0].away)
    assert pad.balance.value == ""
    assert rung == [1, 1]


def test_earlier_steps_come_back_with_their_balance() -> None:
    pad = MechanismPad(MECHANISM, Bell())
    pad.write(Ordered(("parts", "meets")))
    pad.write(Typed("parts"))
    assert pad.read() == Ordered(("parts", "meets"))
    assert '<th scope="row">2</th>' in pad.balance.value


def test_the_card_that_a_verdict_speaks_of_is_marked() -> None:
    pad = MechanismPad(MECHANISM, Bell())
    pad.write(Ordered(("parts", "loses")))
    pad.point(1)
    assert "look at this card" in pad.deck.rows[1].name.value
