"""The cards of one notebook, and what they share."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import pytest

from tests.front.stage import SHEET
from workbook.errors import CheckerDiedError, TaskError
from workbook.front.page import Page
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from ipywidgets import Widget

    from tests.front.stage import FakeJudge
    from workbook.client.session import Session


def answer(page: Page, step: str, text: str) -> None:
    card = page.card(step)
    card.pad.write(Typed(text))
    card.check()


def test_every_step_of_the_part_has_a_card(page: Page) -> None:
    for step in SHEET.postlab:
        assert page.card(step.id) is page.card(step.id)


def test_a_step_that_is_not_there_is_told_with_the_nearest(page: Page) -> None:
    with pytest.raises(TaskError, match=r"no step 'oil_mas'.* Did you mean 'oil_mass'"):
        page.card("oil_mas")


def test_the_progress_moves_as_verdicts_come(page: Page) -> None:
    assert "0 of 7 steps done" in page.progress.line.value
    answer(page, "share", "12 %")
    answer(page, "oil_volume", "12.0 mL")
    assert "2 of 7 steps done" in page.progress.line.value


def test_an_answer_that_waited_gets_its_verdict_on_its_own_card(
    page: Page, judge: FakeJudge
) -> None:
    judge.fault = CheckerDiedError("judge 'share'", 137)
    answer(page, "share", "12 %")
    assert "Not judged yet" in page.card("share").says.value
    judge.fault = None
    answer(page, "oil_volume", "12.0 mL")
    assert "Agrees" in page.card("share").says.value
    assert "2 of 7 steps done" in page.progress.line.value


def test_an_answer_that_waited_is_sent_when_the_page_is_opened(
    page: Page, judge: FakeJudge, open_again: Callable[[], Page]
) -> None:
    judge.fault = CheckerDiedError("judge 'share'", 137)
    answer(page, "share", "12 %")
    judge.fault = None
    again = open_again()
    assert "1 of 7 steps done" in again.progress.line.value
    assert "Agrees" in again.card("share").says.value


def test_a_damaged_record_is_told_at_the_head(
    page: Page, folder: Path, open_again: Callable[[], Page]
) -> None:
    answer(page, "share", "12 %")
    record = folder / "cold-cream-postlab.attempts.jsonl"
    record.write_bytes(record.read_bytes()[:-9])
    head = open_again().box.children[1]
    assert "is damaged and was left out" in head.value


def test_a_page_prints_the_same_text_always(page: Page) -> None:
    assert page._repr_mimebundle_()["text/plain"] == "page: postlab"


def test_no_widget_is_of_a_class_of_ours_but_the_look(page: Page) -> None:
    boxes = [page.box, page.hand_in().box]
    boxes += [page.card(step.id).box for step in SHEET.postlab]
    widgets = [widget for box in boxes for widget in walk(box)]
    ours = {type(w).__name__ for w in widgets if "workbook" in type(w).__module__}
    assert ours == {"Look"}


def test_all_cards_share_one_look(page: Page) -> None:
    boxes = [page.box, page.card("share").box, page.card("wear").box]
    assert len({box.children[0] for box in boxes}) == 1


def walk(widget: Widget) -> list[Widget]:
    children = getattr(widget, "children", ())
    return [widget, *(inner for child in children for inner in walk(child))]


def test_what_waits_is_sent_by_the_loop_and_the_card_says_when(
    session: Session, judge: FakeJudge
) -> None:
    judge.fault = CheckerDiedError("judge an answer", 137)
    session.submit("share", Typed("12 %"))
    judge.fault = None

    async def open_and_wait() -> str:
        page = Page(session, is_patient=True)
        card = page.card("share")
        assert "Not judged yet." in card.says.value
        for task in asyncio.all_tasks() - {asyncio.current_task()}:
            await asyncio.wait_for(task, 5)
        return str(card.says.value)

    said = asyncio.run(open_and_wait())
    assert "Agrees." in said
    assert "Sent and judged at " in said
