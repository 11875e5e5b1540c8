"""The card in which texts are marked."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.support.marked import HOSTILE
from workbook.desk.reader import ReaderCard
from workbook.desk.tray import MarkingTray
from workbook.marking.override import OVERRIDES_FILE, read_overrides

if TYPE_CHECKING:
    from workbook.desk.work import Work
    from workbook.front.look import Look

WORDS = ("read", "Mark texts", "One question across the class.")


@pytest.fixture
def card(work: Work, look: Look) -> ReaderCard:
    return ReaderCard(work, look, MarkingTray(work), WORDS)


def fill(card: ReaderCard) -> None:
    card.marker.value = "R. Eddy"
    card.band.value = "About half of it"
    card.reason.value = "Say by how much."


def test_a_text_is_kept_and_the_next_one_shown(card: ReaderCard, work: Work) -> None:
    before = card.text.value
    fill(card)
    card.keep()
    (kept,) = read_overrides(work.folder / OVERRIDES_FILE)
    assert kept.points == Decimal(1)
    assert (kept.reason, kept.marker) == ("Say by how much.", "R. Eddy")
    assert card.text.value != before
    assert (card.band.value, card.reason.value) == ("", "")
    assert "Kept." in card.says.value


def test_what_is_kept_is_for_the_text_that_is_seen(
    card: ReaderCard, work: Work
) -> None:
    question = work.questions()[0]
    seen, _ = work.waiting(question)
    fill(card)
    # Another marker was faster, so that another text would be next.
    work.decide(question, seen, Decimal(2), ("Whole.", "B. Moss"))
    card.keep()
    _, kept = read_overrides(work.folder / OVERRIDES_FILE)
    assert (kept.marker, kept.student) == ("R. Eddy", seen.student)


def test_no_name_is_shown_and_no_text_runs(card: ReaderCard) -> None:
    shown = []
    for _ in range(2):
        shown.append(card.text.value)
        card.skip()
    both = "".join(shown)
    assert HOSTILE not in both
    assert "&lt;script&gt;" in both
    assert not any(name in both for name in ("a1", "b2", "Moss"))


def test_without_a_band_nothing_is_kept(card: ReaderCard, work: Work) -> None:
    card.marker.value = "R. Eddy"
    card.keep()
    assert "Choose first" in card.says.value
    assert not (work.folder / OVERRIDES_FILE).exists()


def test_without_a_name_the_card_says_so_and_keeps_what_is_written(
    card: ReaderCard,
) -> None:
    fill(card)
    card.marker.value = ""
    card.keep()
    assert "name of a marker" in card.says.value
    assert card.reason.value == "Say by how much."


def test_a_comment_of_the_bank_is_added_to_the_reason(card: ReaderCard) -> None:
    card.reason.value = "Good."
    card.bank.value = "Estimate its size from your own data."
    assert card.reason.value == "Good. Estimate its size from your own data."
    assert card.bank.value == ""


def test_the_bank_begins_without_a_choice(card: ReaderCard) -> None:
    assert (card.bank.value, card.bank.index) == ("", 0)
    assert card.reason.value == ""


def test_a_reason_can_be_put_into_the_bank(card: ReaderCard) -> None:
    card.reason.value = "Water makes it heavier."
    card.put_in()
    assert "Water makes it heavier." in dict(card.bank.options)
    assert "in the bank" in card.says.value


def test_when_all_is_marked_the_card_says_so(card: ReaderCard) -> None:
    for _ in range(2):
        fill(card)
        card.keep()
    assert "Nothing is left to mark" in card.text.value
    assert "2 of 2 texts are marked." in card.told.value
