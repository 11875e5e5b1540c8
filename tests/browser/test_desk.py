"""The instructor's desk in a real Chromium: by keyboard alone, in both themes."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest

from tests.support.axe import find_violations, load_axe
from tests.support.issued import EXERCISES
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_lab
from tests.support.notebook_view import NotebookView

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

pytestmark = [pytest.mark.browser, pytest.mark.service]

CARDS = ("queue", "sheet", "calibrate", "read", "class")

#: A class is simulated and marked when the desk is opened [ms].
OPENING_MS = 90_000


def _is_sign(said: str) -> bool:
    """Tell what axe-core leaves open: one sign of a formula is too short to judge."""
    return said.startswith("color-contrast: <mo>")


@pytest.fixture(scope="module")
def view(
    browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[NotebookView]:
    """Open the desk on a copy of the demonstration course, and run it."""
    folder = tmp_path_factory.mktemp("desk") / "exercises"
    shutil.copytree(EXERCISES, folder, ignore=shutil.ignore_patterns("*.key"))
    with start_lab(folder, tmp_path_factory.mktemp("home")) as server:
        page = server.open(browser, "desk.ipynb")
        # As high as a card: axe-core judges no colour of what is out of sight.
        page.set_viewport_size({"width": 1400, "height": 3600})
        load_axe(page)
        Keyboard(page).choose("Run All Cells")
        Keyboard(page).card("class").wait_for(state="attached", timeout=OPENING_MS)
        yield NotebookView(page)
        page.close()


def test_a_text_is_marked_by_keyboard_alone(view: NotebookView) -> None:
    keys = Keyboard(view.page)
    card = keys.card("read")
    keys.fill(card.get_by_label("Your name"), "R. Eddy")
    keys.tab_to(card.get_by_label("It shows"))
    view.page.keyboard.type("About half")
    keys.tab_to(card.get_by_label("Comment bank"))
    view.page.keyboard.type("Estimate")
    keys.tab_to(card.get_by_role("button", name="Keep and go on"))
    view.page.keyboard.press("Enter")
    card.get_by_text("Kept. The next text is shown.").wait_for()
    assert "1 of " in card.inner_text()


@pytest.mark.parametrize("name", CARDS)
def test_axe_finds_nothing_wrong_with_a_card_of_the_desk(
    view: NotebookView, name: str
) -> None:
    card = Keyboard(view.page).card(name)
    card.locator(".wb-asks").evaluate("heading => heading.scrollIntoView()")
    found = {}
    for theme in ("light", "dark"):
        view.use_theme(theme)
        found[theme] = [each for each in find_violations(card) if not _is_sign(each)]
    view.use_theme("light")
    assert found == {"light": [], "dark": []}


def test_keys_in_a_card_do_not_reach_the_notebook(view: NotebookView) -> None:
    keys, before = Keyboard(view.page), view.cells()
    keys.tab_to(keys.card("queue").get_by_role("button", name="Look again"))
    for key in ("d", "d", "m", "ArrowDown", "x"):
        view.page.keyboard.press(key)
    assert view.cells() == before
