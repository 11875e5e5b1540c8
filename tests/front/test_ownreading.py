"""The place to note a reading of one's own bench, and to change it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.front.stage import OWN
from workbook.front.bell import Bell
from workbook.front.ownreading import OwnPad, show_change
from workbook.wire.answer import Noted, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.front.stage import Browser, FakeJudge
    from workbook.front.card import Card
    from workbook.front.page import Page

FIRST = Noted("45.12 g")
CHANGE = Noted("45.21 g", "digits swapped", "45.12 g")


@pytest.fixture
def noted(page: Page, browser: Browser, judge: FakeJudge) -> Card:
    """Return the card of a reading that was noted."""
    judge.verdicts["jar"] = Verdict(Outcome.NOTED, "It is yours.", value_holds=True)
    card = page.card("jar")
    browser.type(pad_of(card).entry.box, "45.12 g")
    browser.click(card.button)
    return card


def pad_of(card: Card) -> OwnPad:
    assert isinstance(card.pad, OwnPad)
    return card.pad


def change(card: Card, browser: Browser, text: str, reason: str) -> None:
    """Change a noted reading, as the browser does it."""
    pad = pad_of(card)
    browser.click(pad.opener)
    browser.type(pad.other.box, text)
    browser.type(pad.reason.box, reason)
    browser.click(pad.changer)


def test_the_button_says_what_it_does(page: Page) -> None:
    assert page.card("jar").button.description == "Note this reading"


def test_a_text_that_is_not_noted_stays_in_an_open_box(
    page: Page, browser: Browser, judge: FakeJudge
) -> None:
    judge.verdicts["jar"] = Verdict(Outcome.UNFIT, "Write each digit.")
    card = page.card("jar")
    browser.type(pad_of(card).entry.box, "45.1 g")
    browser.click(card.button)
    assert "Not noted.</strong> Write each digit." in card.says.value
    assert pad_of(card).read() == Noted("45.1 g")
    assert not pad_of(card).entry.box.disabled
    assert not card.button.disabled


def test_a_noted_reading_is_fixed(noted: Card) -> None:
    assert "Noted.</strong> It is yours." in noted.says.value
    assert noted.button.disabled
    assert pad_of(noted).entry.box.disabled
    assert pad_of(noted).read() == FIRST


def test_a_noted_reading_is_still_fixed_after_a_restart(
    noted: Card, open_again: Callable[[], Page]
) -> None:
    again = open_again().card("jar")
    assert pad_of(again).entry.box.disabled
    assert pad_of(again).read() == pad_of(noted).read()


def test_a_reason_changes_a_noted_reading(
    noted: Card, browser: Browser, judge: FakeJudge
) -> None:
    change(noted, browser, CHANGE.text, CHANGE.reason)
    assert judge.asked[-1].answer == CHANGE
    assert pad_of(noted).entry.text == "45.21 g"
    assert not pad_of(noted).is_changing
    assert pad_of(noted).read() == CHANGE


def test_a_change_that_is_not_noted_leaves_the_reading_and_what_was_typed(
    noted: Card, browser: Browser, judge: FakeJudge, open_again: Callable[[], Page]
) -> None:
    judge.verdicts["jar"] = Verdict(Outcome.UNFIT, "Write why.")
    change(noted, browser, "45.21 g", "")
    for card in (noted, open_again().card("jar")):
        pad = pad_of(card)
        assert (pad.entry.text, pad.other.text) == ("45.12 g", "45.21 g")
        assert pad.is_changing
        assert "Write why." in card.says.value


def test_an_unfinished_change_comes_back_after_a_restart(
    noted: Card, browser: Browser, open_again: Callable[[], Page]
) -> None:
    browser.click(pad_of(noted).opener)
    browser.type(pad_of(noted).reason.box, "digits")
    again = pad_of(open_again().card("jar"))
    assert again.is_changing
    assert (again.entry.text, again.reason.text) == ("45.12 g", "digits")


def test_another_notebook_can_not_note_a_second_reading(
    page: Page, browser: Browser, judge: FakeJudge, open_again: Callable[[], Page]
) -> None:
    judge.verdicts["jar"] = Verdict(Outcome.NOTED, "It is yours.", value_holds=True)
    one, two = page.card("jar"), open_again().card("jar")
    for card, text in ((one, "45.12 g"), (two, "46.00 g")):
        browser.type(pad_of(card).entry.box, text)
        browser.click(card.button)
    assert [asked.answer for asked in judge.asked] == [FIRST]
    assert pad_of(two).entry.text == "45.12 g"
    assert pad_of(two).entry.box.disabled


def test_a_change_is_told_beside_the_reading() -> None:
    assert show_change(FIRST) == ""
    assert "Before: &lt;45 g. Changed because: a &amp; b" in show_change(
        Noted("46 g", "a & b", "<45 g")
    )


def test_an_answer_of_another_kind_is_left_out() -> None:
    pad = OwnPad(OWN, Bell())
    pad.write(Typed("45.12 g"))
    assert pad.read() == Noted("")
