"""A text box for an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.bell import Bell
from workbook.front.entry import Entry, label_answer

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_what_is_typed_is_kept_digit_by_digit(browser: Browser) -> None:
    entry = Entry("Mass", Bell())
    browser.type(entry.box, "1.50 g")
    assert entry.text == "1.50 g"


def test_the_label_is_tied_to_the_box() -> None:
    assert Entry("Mass", Bell()).box.description == "Mass"


def test_a_change_rings_the_bell(browser: Browser) -> None:
    rung: list[str] = []
    entry = Entry("Mass", Bell(change=lambda: rung.append("change")))
    browser.type(entry.box, "1")
    assert rung == ["change"]


def test_enter_rings_the_bell_and_nothing_else_does(browser: Browser) -> None:
    rung: list[str] = []
    entry = Entry("Mass", Bell(enter=lambda: rung.append("enter")))
    browser.click(entry.box)
    assert rung == []
    browser.enter(entry.box)
    assert rung == ["enter"]


def test_the_label_names_the_unit_that_is_asked() -> None:
    assert label_answer("%") == "Your result, with its unit (%)"
