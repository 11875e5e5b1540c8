"""The card that writes the hand-in."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from workbook.client.direct import DirectChecker
from workbook.client.handin import Receipt
from workbook.client.place import Part
from workbook.client.session import open_session
from workbook.front.page import Page
from workbook.front.submission import say_receipt
from workbook.wire.answer import Typed
from workbook.wire.handin import HandIn

if TYPE_CHECKING:
    from tests.front.stage import Browser, FakeJudge

NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)


def test_the_button_writes_the_file_and_names_it(
    page: Page, browser: Browser, folder: Path
) -> None:
    page.card("share").pad.write(Typed("12 %"))
    page.card("share").check()
    card = page.hand_in()
    browser.click(card.button)
    assert "Written to s07.handin.json" in card.says.value
    written = (folder / "s07.handin.json").read_bytes()
    (attempt,) = msgspec.json.decode(written, type=HandIn).attempts
    assert attempt.answer == Typed("12 %")


def test_the_receipt_says_file_answers_and_digest() -> None:
    receipt = Receipt(Path("s07.handin.json"), NOON, "3fa92b1c", 1, is_sealed=True)
    said = say_receipt(receipt)
    assert said.startswith("Written to s07.handin.json on ")
    assert "with 1 answer. It is known by 3fa92b1c." in said


def test_a_hand_in_that_was_not_sealed_says_that_it_counts() -> None:
    receipt = Receipt(Path("s07.handin.json"), NOON, "3fa92b1c", 2, is_sealed=False)
    assert "with 2 answers." in say_receipt(receipt)
    assert say_receipt(receipt).endswith("it counts all the same.")


def test_a_service_s_time_and_what_could_not_be_sent_are_told() -> None:
    made = Receipt(Path("s07.handin.json"), NOON, "3fa92b1c", 2, is_sealed=True)
    said = say_receipt(replace(made, received=NOON, unsent=1))
    assert "The checker took it on 01 October 2026, " in said
    assert "1 of these answers could not be sent to the checker before" in said
    assert "The checker took" not in say_receipt(made)


def test_a_sheet_for_practice_is_not_handed_in(
    tmp_path: Path, judge: FakeJudge, browser: Browser
) -> None:
    page = Page(open_session(tmp_path, Part.POSTLAB, DirectChecker(judge)))
    card = page.hand_in()
    browser.click(card.button)
    assert "for practice, so there is nothing to hand in" in card.says.value


def test_the_card_prints_the_same_text_always(page: Page) -> None:
    assert page.hand_in()._repr_mimebundle_()["text/plain"] == "card: hand-in"
