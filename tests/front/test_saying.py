"""How a verdict is shown."""

from __future__ import annotations

import re

import pytest

from workbook.front.saying import INKS, WORDS, show_note, show_verdict
from workbook.wire.verdict import Outcome, Verdict


@pytest.mark.parametrize("outcome", Outcome)
def test_every_outcome_has_a_word_a_mark_and_the_sentence(outcome: Outcome) -> None:
    shown = show_verdict(Verdict(outcome, "A sentence."), is_current=True)
    assert f"{WORDS[outcome]}</strong> A sentence." in shown
    assert '<path d="M' in shown
    assert f"wb-{INKS[outcome]}" in shown


def test_no_two_outcomes_share_a_word() -> None:
    assert len(set(WORDS.values())) == len(Outcome)


def test_a_verdict_says_how_the_text_was_read() -> None:
    verdict = Verdict(Outcome.RIGHT, "It holds.", "13.6 g, 3 figures")
    assert "Read as 13.6 g, 3 figures." in show_verdict(verdict, is_current=True)


def test_a_changed_answer_is_told_and_the_verdict_stays() -> None:
    shown = show_verdict(Verdict(Outcome.WRONG, "It does not."), is_current=False)
    assert "It does not." in shown
    assert "What stands here is not what was judged." in shown


def test_a_sentence_from_elsewhere_can_t_put_elements_into_the_page() -> None:
    verdict = Verdict(Outcome.WRONG, "<img src=x>", "<b>")
    shown = show_verdict(verdict, is_current=True) + show_note("<i>")
    assert not re.search(r"<(img|b|i)\b", shown)


def test_nothing_to_note_shows_nothing() -> None:
    assert show_note("") == ""
