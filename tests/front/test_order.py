"""The place to put a procedure in order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.front.stage import ORDER
from workbook.front.bell import Bell
from workbook.front.order import OrderPad
from workbook.wire.answer import Ordered, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from tests.front.stage import Browser, FakeJudge
    from workbook.front.page import Page


def test_the_order_is_that_of_placing(browser: Browser) -> None:
    rung: list[int] = []
    pad = OrderPad(ORDER, Bell(change=lambda: rung.append(1)))
    browser.click(pad.deck.pool[2])
    browser.click(pad.deck.pool[1])
    assert pad.read() == Ordered(("weigh", "heat"))
    assert rung == [1, 1]


def test_an_earlier_order_comes_back_and_other_answers_do_not() -> None:
    pad = OrderPad(ORDER, Bell())
    pad.write(Ordered(("weigh", "heat")))
    pad.write(Typed("stir"))
    assert pad.read() == Ordered(("weigh", "heat"))


def test_a_verdict_marks_the_first_of_two_cards(before: Page, judge: FakeJudge) -> None:
    judge.verdicts["melting"] = Verdict(Outcome.WRONG, "Not these two.", at=1)
    card = before.card("melting")
    assert isinstance(card.pad, OrderPad)
    card.pad.write(Ordered(("weigh", "stir", "heat")))
    card.check()
    assert "look at this card" in card.pad.deck.rows[1].name.value
