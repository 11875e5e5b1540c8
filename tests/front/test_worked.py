"""The worked answer under a practice card, and fresh values for its page."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL
from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import open_practice
from workbook.errors import CheckerDiedError
from workbook.front.page import Page
from workbook.front.worked import show_lines
from workbook.solver.desk import Desk
from workbook.solver.practice import PracticeSource
from workbook.wire.answer import Typed
from workbook.wire.message import WorkedLine

if TYPE_CHECKING:
    from tests.front.stage import Browser
    from workbook.client.session import Session
    from workbook.front.card import Card
    from workbook.wire.message import Question, Statement


DEAD = CheckerDiedError("explain 'dish'", 137)


@pytest.fixture
def fresh() -> Session:
    """Return a practice sheet of the demonstration lab, with its real solver."""
    checker = DirectChecker(Desk(PracticeSource(OLIVE_OIL)).answer)
    return open_practice(Part.POSTLAB, checker)


@pytest.fixture
def practice(fresh: Session) -> Page:
    return Page(fresh)


def try_it(page: Page, step: str, text: str) -> Card:
    """Answer a step, and return its card."""
    card = page.card(step)
    card.pad.write(Typed(text))
    card.check()
    return card


def test_it_is_offered_only_after_an_attempt(practice: Page) -> None:
    card = try_it(practice, "soap_mass", "much")
    assert card.worked.box.children == ()
    try_it(practice, "soap_mass", "1.00 g")
    assert card.worked.button in card.worked.box.children
    assert card.worked.lines.value == ""


def test_it_is_typeset_with_units_and_said_in_words(
    practice: Page, browser: Browser
) -> None:
    card = try_it(practice, "soap_mass", "1.00 g")
    browser.click(card.worked.button)
    shown = card.worked.lines.value
    assert shown.count(r"\text{g}") == 3
    assert "mass of the dish with the dry soap − mass of the empty dish" in shown


def test_an_issued_sheet_has_no_place_for_it(page: Page) -> None:
    card = page.card("share")
    card.pad.write(Typed("12 %"))
    card.check()
    assert card.worked.box not in card.box.children
    assert card.worked.box.children == ()


def test_a_checker_that_ended_is_told(fresh: Session, practice: Page) -> None:
    card = try_it(practice, "dish", "1.00 g")

    def die(_: Question) -> Statement:
        raise DEAD

    fresh.checker = DirectChecker(die)
    card.worked.show()
    assert "ended with code 137" in card.worked.lines.value


def test_lines_are_escaped() -> None:
    shown = show_lines([WorkedLine("", "a < b"), WorkedLine("a < b", "")])
    assert "<p>a &lt; b</p>" in shown
    assert r"\(\displaystyle a &lt; b\)" in shown
