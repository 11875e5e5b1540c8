"""A factor chain for paper."""

from __future__ import annotations

from workbook.front.cancel import Count, Link, cancel
from workbook.front.fraction import show_fractions

START = Link(Count("", "mL", "oil"), None)
DENSITY = Link(Count("0.911", "g", "oil"), Count("1", "mL", "oil"))


def show(*links: Link) -> str:
    return show_fractions("volume of oil", links, cancel(links))


def test_a_chain_starts_in_words_with_its_unit() -> None:
    assert "<mtext>volume of oil in</mtext>" in show(START)
    assert "<mtext>mL</mtext>" in show(START)


def test_each_number_stands_with_its_unit_and_what_cancels_is_struck_out() -> None:
    shown = show(START, DENSITY)
    assert "<mtext><s>mL</s></mtext>" in shown
    assert '<mn>0.911</mn><mspace width="0.3em"/><mtext>g oil</mtext>' in shown
    assert '<mn>1</mn><mspace width="0.3em"/><mtext><s>mL oil</s></mtext>' in shown


def test_each_link_is_a_formula_of_its_own_so_that_a_chain_can_wrap() -> None:
    assert show(START, DENSITY, DENSITY).count("<math ") == 3


def test_a_number_from_elsewhere_is_said_in_words() -> None:
    molar = Link(Count("", "g", "oil"), Count("1", "", ""))
    shown = show(START, molar)
    assert "<mtext>own value</mtext>" in shown
    assert "<mrow><mn>1</mn></mrow>" in shown


def test_hostile_text_is_escaped() -> None:
    bad = Link(Count("<b>", "<i>", "&"), Count("1", "<u>", "oil"))
    shown = show_fractions("<script>", [START, bad], cancel([START, bad]))
    for sign in ("<b>", "<i>", "<u>", "<script>"):
        assert sign not in shown
