"""A card: what is asked, checked, kept and shown."""

from __future__ import annotations

import errno
import os
from typing import TYPE_CHECKING

from tests.front.stage import READING, SHEET
from workbook.errors import CheckerDiedError
from workbook.front.algebra import AlgebraPad
from workbook.front.card import show_question
from workbook.front.number import NumberPad
from workbook.wire.answer import Derived, Filled, Filling, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    import pytest

    from tests.front.stage import Browser, FakeJudge
    from workbook.front.card import Card
    from workbook.front.page import Page


def type_share(page: Page, browser: Browser, text: str) -> Card:
    card = page.card("share")
    assert isinstance(card.pad, NumberPad)
    browser.type(card.pad.entry.box, text)
    return card


def test_the_head_says_place_question_and_allowance() -> None:
    shown = show_question(READING, SHEET.postlab)
    assert "Step 1 of 7" in shown
    assert f'id="wb-oil_volume">{READING.asks}</h3>' in shown
    assert "Within a fifth of a division." in shown


def test_the_check_button_shows_the_verdict(page: Page, browser: Browser) -> None:
    card = type_share(page, browser, "12 %")
    browser.click(card.button)
    assert "Agrees.</strong> It holds." in card.says.value
    assert "Read as 1.50 g, 3 figures." in card.says.value


def test_enter_checks_too(page: Page, browser: Browser, judge: FakeJudge) -> None:
    card = type_share(page, browser, "12 %")
    assert isinstance(card.pad, NumberPad)
    browser.enter(card.pad.entry.box)
    assert [asked.answer for asked in judge.asked] == [Typed("12 %")]
    assert "Agrees" in card.says.value


def test_checking_returns_the_verdict_that_is_shown(
    page: Page, browser: Browser, judge: FakeJudge
) -> None:
    judge.verdicts["share"] = Verdict(Outcome.SLIP, "The tare is still in it.")
    card = type_share(page, browser, "12 %")
    assert card.check() == judge.verdicts["share"]
    assert "The tare is still in it." in card.says.value


def test_a_fault_of_the_checker_is_shown_and_costs_nothing(
    page: Page, browser: Browser, judge: FakeJudge
) -> None:
    judge.fault = CheckerDiedError("judge 'share'", 137)
    card = type_share(page, browser, "12 %")
    browser.click(card.button)
    assert "Not judged yet.</strong>" in card.says.value
    assert "kept, and will be sent again" in card.says.value
    assert page.progress.line.value.endswith("0 of 7 steps done</span>")


def test_a_changed_answer_is_told_until_it_is_changed_back(
    page: Page, browser: Browser
) -> None:
    card = type_share(page, browser, "12 %")
    card.check()
    type_share(page, browser, "13 %")
    assert "What stands here is not what was judged." in card.says.value
    type_share(page, browser, "12 %")
    assert "What stands here is not what was judged." not in card.says.value


def test_the_line_that_stopped_following_is_marked_until_it_is_changed(
    page: Page, browser: Browser, judge: FakeJudge
) -> None:
    judge.verdicts["acid_part"] = Verdict(Outcome.WRONG, "Line 2 does not.", at=1)
    pad = (card := page.card("acid_part")).pad
    assert isinstance(pad, AlgebraPad)
    browser.type(pad.area, "3A = 6\nA = 3")
    card.check()
    assert "stops following here" in pad.typeset.value
    browser.type(pad.area, "3A = 6\nA = 2")
    assert "stops following here" not in pad.typeset.value


def test_unchecked_text_comes_back_after_a_restart(
    page: Page, browser: Browser, open_again: Callable[[], Page]
) -> None:
    type_share(page, browser, "12")
    card = open_again().card("share")
    assert card.pad.read() == Typed("12")
    assert card.says.value == ""


def test_a_verdict_comes_back_after_a_restart(
    page: Page, browser: Browser, open_again: Callable[[], Page]
) -> None:
    before = type_share(page, browser, "12 %")
    before.check()
    after = open_again().card("share")
    assert after.pad.read() == Typed("12 %")
    assert after.says.value == before.says.value


def test_working_and_its_mark_come_back_after_a_restart(
    page: Page, judge: FakeJudge, open_again: Callable[[], Page]
) -> None:
    judge.verdicts["acid_part"] = Verdict(Outcome.WRONG, "Line 2 does not.", at=1)
    pad = (card := page.card("acid_part")).pad
    pad.write(Derived(("3A = 6", "A = 3"), "3 g/mol"))
    card.check()
    again = open_again().card("acid_part").pad
    assert isinstance(again, AlgebraPad)
    assert again.read() == pad.read()
    assert "stops following here" in again.typeset.value


def test_text_that_can_t_be_kept_is_told_at_once(
    page: Page, browser: Browser, folder: Path
) -> None:
    card = page.card("share")
    (folder / "cold-cream-postlab.attempts.jsonl").mkdir()
    type_share(page, browser, "12 %")
    assert "is not kept until that is put right" in card.says.value


def test_an_answer_that_can_t_be_kept_is_not_judged(
    page: Page, browser: Browser, folder: Path, judge: FakeJudge
) -> None:
    card = type_share(page, browser, "12 %")
    record = folder / "cold-cream-postlab.attempts.jsonl"
    record.unlink()
    record.mkdir()
    browser.click(card.button)
    assert "was not kept, and not sent" in card.says.value
    assert judge.asked == []


def test_a_card_prints_a_short_text_that_is_always_the_same(page: Page) -> None:
    shown = page.card("share")._repr_mimebundle_(include=None, exclude=None)
    assert shown["text/plain"] == "card: share"
    assert "application/vnd.jupyter.widget-view+json" in shown


def test_text_is_kept_again_once_the_disk_has_room_and_the_card_says_so(
    page: Page, browser: Browser, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patch:
        patch.setattr("workbook.client.journal.append_line", fail)
        card = type_share(page, browser, "1")
        assert "No space left on device" in card.says.value
        assert "leave this page open till then" in card.says.value
    type_share(page, browser, "12")
    assert card.says.value == ""


def test_trouble_with_the_disk_does_not_hide_the_verdict(
    page: Page, browser: Browser, folder: Path
) -> None:
    card = type_share(page, browser, "12 %")
    card.check()
    record = folder / "cold-cream-postlab.attempts.jsonl"
    record.unlink()
    record.mkdir()
    type_share(page, browser, "13 %")
    assert "Agrees." in card.says.value
    assert "is not kept until that is put right" in card.says.value


def test_a_second_notebook_is_told_on_the_card_in_use_and_at_the_head(
    page: Page, browser: Browser, open_again: Callable[[], Page]
) -> None:
    other = open_again()
    type_share(other, browser, "12 %").check()
    card = type_share(page, browser, "1")
    assert "open in a second place" in card.says.value
    assert "open in a second place" in page.head.value
    assert "1 of 7 steps done" in page.progress.line.value
    assert card.pad.read() == Typed("1")


def test_the_verdict_of_another_notebook_is_seen_on_the_card_of_its_step(
    page: Page, browser: Browser, open_again: Callable[[], Page]
) -> None:
    card = page.card("share")
    type_share(open_again(), browser, "12 %").check()
    browser.type(page.card("oil_volume").pad.body[1], "12")
    assert "Agrees." in card.says.value
    assert "What stands here is not what was judged." in card.says.value


def tell(page: Page, step: str, *typed: str) -> None:
    """Send what the browser's side sends of the boxes of a card."""
    (look, *_) = page.box.children
    # What the comm calls when a message comes in; there is no public way.
    look._handle_custom_msg({"step": step, "typed": list(typed)}, [])  # noqa: SLF001


def test_text_that_a_box_holds_back_is_kept_as_soon_as_it_is_told(
    page: Page, open_again: Callable[[], Page]
) -> None:
    card = page.card("share")
    tell(page, "share", "12")
    assert card.pad.read() == Typed("12")
    assert open_again().card("share").pad.read() == Typed("12")


def test_each_box_of_a_card_gets_the_text_of_its_place(page: Page) -> None:
    card = page.card("acid_part")
    tell(page, "acid_part", "3A = 6\nA = 2", "2 g/mol")
    assert card.pad.read() == Derived(("3A = 6", "A = 2"), "2 g/mol")


def test_a_text_is_kept_as_soon_as_it_is_told(
    before: Page, browser: Browser, folder: Path
) -> None:
    card = before.card("notes")
    browser.type(card.pad.body[1], "It set.")
    (record,) = [*folder.glob("*.jsonl"), folder / "none"][:1]
    assert not record.exists()
    tell(before, "notes", "It set.")
    (record,) = folder.glob("*.jsonl")
    assert b"It set." in record.read_bytes()


def test_each_cell_of_a_table_gets_the_text_of_its_place(before: Page) -> None:
    card = before.card("plan")
    tell(before, "plan", "0.0136 mol", "0.02", "3.2", "Choose")
    assert card.pad.read() == Filled(
        (
            Filling("oil", "amount", "0.0136 mol"),
            Filling("wax", "amount", "0.02"),
            Filling("wax", "ratio", "3.2"),
        )
    )


def test_what_is_told_of_another_card_is_left_alone(page: Page) -> None:
    card = page.card("share")
    tell(page, "oil_volume", "12")
    tell(page, "share", "12", "13")
    tell(page, "gone", "12")
    assert card.pad.read() == Typed("")
