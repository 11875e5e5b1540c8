"""The card that writes the lab report."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import open_session
from workbook.front.page import Page
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from pathlib import Path

    from tests.front.stage import Browser, FakeJudge


def test_the_button_writes_the_report_and_names_it(
    page: Page, browser: Browser, folder: Path
) -> None:
    page.card("share").pad.write(Typed("12 %"))
    page.card("share").check()
    card = page.report()
    browser.click(card.button)
    assert "Written to s07.report.html" in card.says.value
    assert "12 %" in (folder / "s07.report.html").read_text(encoding="utf-8")


def test_a_second_report_leaves_the_first(
    page: Page, browser: Browser, folder: Path
) -> None:
    page.card("share").pad.write(Typed("12 %"))
    page.card("share").check()
    card = page.report()
    browser.click(card.button)
    first = (folder / "s07.report.html").read_bytes()
    page.card("share").pad.write(Typed("13 %"))
    page.card("share").check()
    browser.click(card.button)
    assert "Written to s07-2.report.html" in card.says.value
    assert (folder / "s07.report.html").read_bytes() == first


def test_without_an_answer_there_is_nothing_to_report(
    page: Page, browser: Browser, folder: Path
) -> None:
    card = page.report()
    browser.click(card.button)
    assert "Nothing was checked yet" in card.says.value
    assert list(folder.glob("*.html")) == []


def test_a_sheet_for_practice_is_not_reported(
    tmp_path: Path, judge: FakeJudge, browser: Browser
) -> None:
    page = Page(open_session(tmp_path, Part.POSTLAB, DirectChecker(judge)))
    card = page.report()
    browser.click(card.button)
    assert "for practice and is not kept" in card.says.value


def test_the_card_prints_the_same_text_always(page: Page) -> None:
    assert page.report()._repr_mimebundle_()["text/plain"] == "card: report"
