"""Fresh values for a page of practice."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL
from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import open_practice
from workbook.errors import CheckerSlowError, TaskError
from workbook.front.page import Page
from workbook.front.practice import PracticePanel
from workbook.solver.desk import Desk
from workbook.solver.practice import PracticeSource
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser
    from workbook.client.session import Session


SLOW = CheckerSlowError("make a practice sheet", 20.0)


@pytest.fixture
def practice() -> Page:
    """Return a page of practice on the demonstration lab, with its real solver."""
    checker = DirectChecker(Desk(PracticeSource(OLIVE_OIL)).answer)

    def draw() -> Session:
        return open_practice(Part.POSTLAB, checker)

    return Page(draw(), draw)


def test_a_page_of_practice_has_the_button_and_an_issued_one_has_not(
    practice: Page, page: Page
) -> None:
    assert practice.practice.box in practice.box.children
    assert page.practice.box not in page.box.children


def test_every_card_gets_new_values_as_often_as_wanted(
    practice: Page, browser: Browser
) -> None:
    names = ("oil_volume", "dish", "dish_and_soap")
    seen = set()
    for _ in range(4):
        seen.add(tuple(practice.card(n).pad.body[0].value for n in names))
        browser.click(practice.practice.button)
    assert len(seen) == 4
    assert "Every value on this page is new" in practice.practice.says.value


def test_what_was_answered_is_gone_and_the_new_values_are_judged(
    practice: Page, browser: Browser
) -> None:
    card = practice.card("dish")
    card.pad.write(Typed("1.00 g"))
    card.check()
    browser.click(practice.practice.button)
    assert practice.card("dish") is card
    assert card.pad.read() == Typed("")
    assert card.says.value == ""
    assert card.worked.box.children == ()
    card.pad.write(Typed("1.00 g"))
    assert card.check().sentence
    assert "Agrees." not in card.says.value
    assert "0 of" in practice.progress.line.value


def test_an_issued_sheet_keeps_its_values(page: Page) -> None:
    with pytest.raises(TaskError, match="issued to you"):
        page.renew()


def test_a_checker_that_makes_no_sheet_is_told(browser: Browser) -> None:
    def fail() -> None:
        raise SLOW

    panel = PracticePanel(fail)
    browser.click(panel.button)
    assert "did not answer within 20 s" in panel.says.value
