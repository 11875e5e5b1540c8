"""The place to predict."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.front.stage import PREDICTION
from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import open_session
from workbook.front.bell import Bell
from workbook.front.page import Page
from workbook.front.prediction import PredictionPad
from workbook.wire.answer import Chosen
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

    from tests.front.stage import Browser, FakeJudge
    from workbook.front.card import Card


@pytest.fixture
def committed(before: Page, browser: Browser, judge: FakeJudge) -> Card:
    """Return the card of a prediction that was made."""
    judge.verdicts["feel"] = Verdict(Outcome.COMMITTED, "It is kept.")
    card = before.card("feel")
    browser.choose(card.pad.body[0], 1)
    browser.click(card.button)
    return card


def test_a_prediction_is_ticked_and_comes_back(browser: Browser) -> None:
    pad = PredictionPad(PREDICTION, Bell())
    browser.choose(pad.choice.buttons, 1)
    assert pad.read() == Chosen(("soft",))
    pad.write(Chosen(("firm",)))
    assert pad.read() == Chosen(("firm",))


def test_the_button_says_what_it_does(before: Page) -> None:
    assert before.card("feel").button.description == "Commit to this"


def test_a_prediction_that_was_made_can_not_be_changed(committed: Card) -> None:
    assert "Your word stands.</strong> It is kept." in committed.says.value
    assert committed.button.disabled
    assert committed.pad.body[0].disabled


def test_a_second_answer_is_not_sent_and_the_first_is_shown(
    committed: Card, judge: FakeJudge, folder: Path
) -> None:
    committed.pad.write(Chosen(("firm",)))
    assert committed.check().outcome is Outcome.COMMITTED
    assert [asked.answer for asked in judge.asked] == [Chosen(("soft",))]
    again = Page(open_session(folder, Part.PRELAB, DirectChecker(judge))).card("feel")
    assert again.pad.read() == Chosen(("soft",))
    assert again.button.disabled


def test_a_prediction_that_waits_for_the_checker_can_be_given_again(
    before: Page, browser: Browser, judge: FakeJudge
) -> None:
    judge.verdicts["feel"] = Verdict(Outcome.NOT_JUDGED, "Nobody there.")
    card = before.card("feel")
    browser.choose(card.pad.body[0], 1)
    browser.click(card.button)
    assert not card.button.disabled
