"""The place to write a text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.front.stage import TEXT
from workbook.front.bell import Bell
from workbook.front.text import TextPad, show_prompts
from workbook.wire.answer import Chosen, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from tests.front.stage import Browser, FakeJudge
    from workbook.front.page import Page


def test_a_text_is_read_as_it_was_typed(browser: Browser) -> None:
    pad = TextPad(TEXT, Bell())
    browser.type(pad.area, " It melted.\n\nThen it set. ")
    assert pad.read() == Typed(" It melted.\n\nThen it set. ")


def test_an_earlier_text_comes_back_and_other_answers_do_not() -> None:
    pad = TextPad(TEXT, Bell())
    pad.write(Typed("It set."))
    pad.write(Chosen(("it",)))
    assert pad.read() == Typed("It set.")


def test_a_key_in_a_text_is_not_written_down_by_itself(browser: Browser) -> None:
    rung: list[int] = []
    pad = TextPad(TEXT, Bell(change=lambda: rung.append(1)))
    browser.type(pad.area, "It")
    assert rung == []


def test_what_to_write_about_is_listed_and_escaped() -> None:
    shown = show_prompts(("while it <b>melted", "as it set"))
    assert "<li>while it &lt;b&gt;melted</li><li>as it set</li>" in shown
    assert show_prompts(()) == ""


def test_a_text_is_kept_and_not_checked(
    before: Page, browser: Browser, judge: FakeJudge
) -> None:
    judge.verdicts["notes"] = Verdict(Outcome.KEPT, "A person reads it.")
    card = before.card("notes")
    browser.type(card.pad.body[1], "It melted.")
    assert card.button.description == "Keep this text"
    browser.click(card.button)
    assert "Kept.</strong> A person reads it." in card.says.value
    assert "1 of 8 steps done" in before.progress.line.value
