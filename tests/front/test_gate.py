"""The gate at the head of a page, and the cards of readings behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
import pytest
from msgspec.structs import replace
from typing_extensions import override

from tests.front.stage import READING, SHEET, Browser, FakeJudge
from workbook.client.direct import DirectChecker
from workbook.client.place import SHEET_FILE, Part
from workbook.client.session import open_session
from workbook.errors import CheckerSlowError
from workbook.front.gate import list_questions
from workbook.front.page import Page
from workbook.front.reading import ReadingPad
from workbook.wire.answer import Typed
from workbook.wire.message import Held, Passed, PassGate
from workbook.wire.sheet import Sight

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from workbook.wire.message import Question, Statement

    OpenPart = Callable[[Part], Page]

BLIND = replace(READING, seen="")
GATED = replace(SHEET, gate=(SHEET.prelab[0].id,), postlab=(BLIND, *SHEET.postlab[1:]))
QUESTION = SHEET.prelab[0].asks


class Porter(FakeJudge):
    """A judge at whose gate one question is missing until it opens."""

    def __init__(self) -> None:
        super().__init__()
        self.is_open = False

    @override
    def __call__(self, question: Question) -> Statement:
        """Let pass or tell what is missing; judge everything else."""
        if not isinstance(question, PassGate) or self.fault is not None:
            return super().__call__(question)
        if not self.is_open:
            return Held(GATED.gate)
        return Passed((Sight(READING.id, READING.seen, ""),))


@pytest.fixture
def porter() -> Porter:
    return Porter()


@pytest.fixture
def open_part(tmp_path: Path, porter: Porter) -> OpenPart:
    (tmp_path / SHEET_FILE).write_bytes(msgspec.json.encode(GATED))
    return lambda part: Page(open_session(tmp_path, part, DirectChecker(porter)))


@pytest.fixture
def after(open_part: OpenPart) -> Page:
    """Return the page of the part after the lab."""
    return open_part(Part.POSTLAB)


def test_after_the_lab_it_is_told_what_is_missing(after: Page) -> None:
    assert "The readings are not shown yet" in after.gate.says.value
    assert f"<li>{QUESTION}</li>" in after.gate.says.value
    assert after.gate.box in after.box.children


def test_a_reading_behind_the_gate_shows_and_takes_nothing(after: Page) -> None:
    card = after.card(READING.id)
    assert "once the questions" in card.pad.body[0].value
    assert card.button not in card.box.children
    assert card.pad.read() == Typed("")


def test_other_steps_can_be_answered(after: Page) -> None:
    card = after.card("share")
    assert card.button in card.box.children


def test_the_button_brings_the_readings_to_cards_that_are_shown(
    after: Page, browser: Browser, porter: Porter
) -> None:
    card = after.card(READING.id)
    porter.is_open = True
    browser.click(after.gate.button)
    assert isinstance(card.pad, ReadingPad)
    assert READING.seen in card.pad.face.value
    assert card.button in card.box.children
    assert after.gate.button not in after.gate.box.children
    assert "are shown below" in after.gate.says.value


def test_a_reading_that_was_shown_can_be_answered_like_any_other(
    after: Page, browser: Browser, porter: Porter
) -> None:
    card = after.card(READING.id)
    porter.is_open = True
    browser.click(after.gate.button)
    assert isinstance(card.pad, ReadingPad)
    browser.type(card.pad.entry.box, "12.0 mL")
    browser.click(card.button)
    assert porter.asked[-1].answer == Typed("12.0 mL")
    assert "Agrees." in card.says.value


def test_a_page_that_is_opened_later_asks_by_itself(
    open_part: OpenPart, porter: Porter
) -> None:
    porter.is_open = True
    page = open_part(Part.POSTLAB)
    assert isinstance(page.card(READING.id).pad, ReadingPad)


def test_before_the_lab_the_questions_are_listed_and_nobody_is_asked(
    open_part: OpenPart, porter: Porter
) -> None:
    porter.fault = CheckerSlowError("show the readings", 1.0)
    page = open_part(Part.PRELAB)
    assert f"<li>{QUESTION}</li>" in page.gate.says.value
    assert page.gate.button not in page.gate.box.children


def test_without_a_checker_a_sentence_and_the_button_stay(
    open_part: OpenPart, porter: Porter
) -> None:
    porter.fault = CheckerSlowError("show the readings", 1.0)
    page = open_part(Part.POSTLAB)
    assert page.gate.says.value.count("<p") == 1
    assert "can&#x27;t be reached" in page.gate.says.value
    assert page.gate.button in page.gate.box.children


def test_a_sheet_without_a_gate_shows_none(page: Page) -> None:
    assert page.gate.box.children == ()


def test_questions_are_escaped_and_none_say_nothing() -> None:
    assert "&lt;b&gt;" in list_questions("These:", ["<b>"])
    assert list_questions("These:", []) == ""


def test_a_report_from_before_the_gate_shows_what_was_seen_after_it(
    open_part: OpenPart, porter: Porter, tmp_path: Path
) -> None:
    before = open_part(Part.PRELAB)
    porter.is_open = True
    after = open_part(Part.POSTLAB)
    after.card(READING.id).pad.write(Typed("12.0 mL"))
    after.card(READING.id).check()
    before.report().report()
    (report,) = tmp_path.glob("*.report.html")
    assert READING.seen in report.read_text(encoding="utf-8")
