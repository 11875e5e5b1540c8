"""LaTeX for MathJax, and the same in words."""

from __future__ import annotations

from workbook.front.cancel import Count, Link, cancel
from workbook.front.typeset import show_chain, show_math, show_plain

START = Link(Count("", "mL", "oil"), None)
DENSITY = Link(Count("0.911", "g", "oil"), Count("1", "mL", "oil"))


def show(*links: Link) -> str:
    return show_chain("volume", links, cancel(links))


def test_a_cancelled_unit_is_struck_out_above_and_below() -> None:
    shown = show(START, DENSITY)
    assert r"\text{volume in}\;\cancel{\text{mL}}" in shown
    assert (
        r"\dfrac{\text{0.911}\;\text{g oil}}{\text{1}\;\cancel{\text{mL oil}}}" in shown
    )


def test_a_screen_reader_hears_what_is_cancelled() -> None:
    shown = show(START, DENSITY)
    assert "volume in mL of oil (cancelled)" in shown
    assert "times 0.911 g of oil over 1 mL of oil (cancelled)" in shown


def test_a_number_that_is_asked_elsewhere_stays_open() -> None:
    molar = Link(Count("", "g", "oil"), Count("1", "mol", "oil"))
    shown = show(START, molar)
    assert r"\square\;\text{g oil}" in shown
    assert "times your value g of oil over 1 mol of oil" in shown


def test_a_pure_number_has_no_unit_after_it() -> None:
    assert r"\dfrac{\text{1}}{\text{2}}" in show(
        START, Link(Count("1", "", ""), Count("2", "", ""))
    )


def test_each_link_can_wrap_on_its_own() -> None:
    assert show(START, DENSITY, DENSITY).count('class="wb-math"') == 3


def test_a_formula_is_no_stop_of_the_tab_key() -> None:
    # MathJax 4 gives tabindex="0" to each formula; seen in JupyterLab 4.6.6.
    assert show_math("x").startswith('<span class="wb-math" inert>')


def test_what_is_shown_is_escaped_for_the_page() -> None:
    assert "<b>" not in show_math("<b>", "<b>") + show_plain("<b>")
    assert "&lt;b&gt;" in show_plain("<b>")


def test_a_plain_text_is_left_alone_by_the_typesetter() -> None:
    assert "mathjax_ignore" in show_plain("$5 and $6")
