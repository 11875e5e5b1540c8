"""
No key that is pressed in a card does anything to the notebook around it.

JupyterLab's commands of one key delete, move, change and run cells while the focus is
on a control of an output. Each control of each kind of card is tried with all of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.controls import fill, list_controls
from tests.support.issued import NOTEBOOKS, Asked, pick_cards
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, ElementHandle

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "p4w9"

#: JupyterLab's commands on a cell, by its shortcut list: delete, cell kinds, insert,
#: cut, copy, paste, merge, line numbers, restart, interrupt; then what moves.
LETTERS = (*"ddmryabxcvVMlLojkhi", "0", "0", "i", "i", "1", "Delete", "Backspace")
MOVES = ("ArrowDown", "ArrowUp", "ArrowRight", "ArrowLeft", "Home", "End", "PageDown")
RUNS = ("Escape", "Enter", "Escape", "Shift+Enter", "Control+Enter", "Alt+Enter")
HARMLESS = (*LETTERS, *MOVES, "Shift+ArrowDown", "Control+Shift+ArrowUp")

CARDS = pick_cards()

_IN_CARD = "card => card.contains(document.activeElement)"


@pytest.fixture(scope="module")
def views(server: LabServer, browser: Browser) -> Iterator[dict[str, NotebookView]]:
    """Open the notebooks of a student, by part."""
    pages = [server.open(browser, f"{STUDENT}/{path}") for path in NOTEBOOKS.values()]
    views = map(NotebookView, pages)
    yield dict(zip(NOTEBOOKS, views, strict=True))
    for page in pages:
        page.close()


def press_all(
    view: NotebookView, control: ElementHandle, keys: tuple[str, ...]
) -> None:
    """Press keys on a control, for as long as it is there."""
    for key in keys:
        if not control.evaluate("element => element.isConnected"):
            return
        control.evaluate("element => element.focus()")
        view.page.keyboard.press(key)


@pytest.mark.parametrize("asked", CARDS, ids=[card.kind for card in CARDS])
def test_no_key_in_a_card_touches_the_notebook(
    views: dict[str, NotebookView], asked: Asked
) -> None:
    view = views[asked.part]
    view.page.bring_to_front()
    keyboard = Keyboard(view.page)
    keyboard.wait_until_live()
    card, before = keyboard.card(asked.step), view.cells()
    card.scroll_into_view_if_needed()
    fill(card)
    for name, control in list_controls(card).items():
        press_all(view, control, HARMLESS)
        assert card.evaluate(_IN_CARD), name
        press_all(view, control, RUNS)
        assert view.cells() == before, name
        fill(card)
    assert view.page.locator(".jp-Dialog").count() == 0


def test_the_focus_stays_in_a_card_whose_control_goes_away(
    views: dict[str, NotebookView],
) -> None:
    keyboard = Keyboard(views["prelab"].page)
    card = keyboard.card(next(c.step for c in CARDS if c.kind == "chain"))
    keyboard.page.bring_to_front()
    fill(card)
    for number in (2, 1):
        take = card.get_by_role("button", name=f"Take factor {number} away")
        take.focus()
        keyboard.page.keyboard.press("Enter")
        take.wait_for(state="detached")
        assert card.evaluate(_IN_CARD), number


def test_enter_judges_all_that_was_typed_ahead_of_it(
    views: dict[str, NotebookView],
) -> None:
    keyboard = Keyboard(views["prelab"].page)
    keyboard.page.bring_to_front()
    card = keyboard.card(next(c.step for c in CARDS if c.kind == "number"))
    card.locator("input[type=text]").focus()
    text = ""
    for number in range(101, 109):
        text = f"0.0{number} mL"
        keyboard.page.keyboard.press("Control+A")
        keyboard.page.keyboard.type(text)
        keyboard.page.keyboard.press("Enter")
        card.get_by_text(f"Read as {text}, 3 figures.").wait_for()
    assert card.locator("input[type=text]").input_value() == text


def test_saving_and_the_list_of_commands_can_be_reached_from_a_card(
    views: dict[str, NotebookView],
) -> None:
    view = views["prelab"]
    view.page.bring_to_front()
    button = Keyboard(view.page).card(CARDS[0].step).locator(".wb-check")
    button.focus()
    view.page.keyboard.press("Control+s")
    view.wait_for(
        "() => !window.jupyterapp.shell.currentWidget.context.model.dirty", None
    )
    button.focus()
    view.page.keyboard.press("Control+Shift+C")
    view.page.locator(".lm-CommandPalette-input:focus").wait_for()
    view.page.keyboard.press("Escape")


def test_the_list_of_commands_opens_from_a_box_for_text(
    views: dict[str, NotebookView],
) -> None:
    view = views["postlab"]
    view.page.bring_to_front()
    card = Keyboard(view.page).card(next(c.step for c in CARDS if c.kind == "algebra"))
    box = card.locator("input[type=text]")
    for control in (box, card.locator("textarea")):
        control.focus()
        view.page.keyboard.press("Control+Shift+C")
        view.page.locator(".lm-CommandPalette-input:focus").wait_for()
        view.page.keyboard.press("Escape")
    box.fill("0.1")
    view.page.keyboard.press("Control+s")
    view.wait_for(
        "() => !window.jupyterapp.shell.currentWidget.context.model.dirty", None
    )
    assert box.input_value() == "0.1"


def test_the_same_keys_delete_a_cell_where_nothing_guards_it(
    views: dict[str, NotebookView],
) -> None:
    """Show that the tests above could fail: last, since it spoils the notebook."""
    view = views["postlab"]
    view.page.bring_to_front()
    before, card = view.cells(), Keyboard(view.page).card("hand-in")
    button = card.locator(".wb-check").element_handle()
    card.evaluate("card => card.classList.remove('wb-card')")
    button.evaluate("button => delete button.dataset.lmSuppressShortcuts")
    # JupyterLab gives the two a second, which a busy machine does not always keep.
    for _ in range(20):
        button.evaluate("button => button.focus()")
        view.page.keyboard.type("dd")
        view.page.wait_for_timeout(500)
        if len(view.cells()) < len(before):
            return
    pytest.fail("No cell was deleted.")
