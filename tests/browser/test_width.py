"""
Cards in a window as narrow as a telephone, and at twice the size of everything.

A window of 1280 px at 200 % has 640 px left for a page; that is how it is tried here.
WCAG 2.2, success criteria 1.4.4 (text at 200 %) and 1.4.10 (no scrolling sideways).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.controls import fill
from tests.support.issued import NOTEBOOKS, pick_cards
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "d2x7"
WIDTHS_PX = (390, 640)

#: Elements that reach out of their card or of the window, those left out that lie in a
#: part which scrolls by itself: a wide table, a typeset line, an enlarged picture.
_TOO_WIDE = """card => {
  const scrolls = (element) =>
    ["auto", "scroll"].includes(getComputedStyle(element).overflowX);
  const isHeld = (element) => {
    for (let at = element.parentElement; at !== card; at = at.parentElement)
      if (scrolls(at)) return true;
    return false;
  };
  const edge = Math.min(card.getBoundingClientRect().right, window.innerWidth) + 1;
  return [...card.querySelectorAll("*")]
    .filter((element) => element.checkVisibility() && !isHeld(element))
    .filter((element) => element.getBoundingClientRect().right > edge)
    .filter((element) => !element.closest(".wb-unseen, mjx-assistive-mml"))
    .map((element) => `${element.tagName} ${element.className}`);
}"""

_PANEL = """() => {
  const panel = document.querySelector(".jp-WindowedPanel-outer");
  return panel.scrollWidth - panel.clientWidth;
}"""


@pytest.fixture(scope="module")
def pages(server: LabServer, browser: Browser) -> Iterator[dict[str, Page]]:
    """Open the notebooks of a student, by part, each card filled."""
    opened = {}
    for part, path in NOTEBOOKS.items():
        page = server.open(browser, f"{STUDENT}/{path}")
        keyboard = Keyboard(page)
        keyboard.wait_until_live()
        NotebookView(page).command("application:toggle-left-area")
        for asked in pick_cards():
            if asked.part == part:
                fill(keyboard.card(asked.step))
        opened[part] = page
    yield opened
    for page in opened.values():
        page.close()


@pytest.mark.parametrize("part", NOTEBOOKS)
@pytest.mark.parametrize("width_px", WIDTHS_PX)
def test_nothing_reaches_out_of_a_card(
    pages: dict[str, Page], part: str, width_px: int
) -> None:
    page = pages[part]
    page.bring_to_front()
    page.set_viewport_size({"width": width_px, "height": 844})
    keyboard = Keyboard(page)
    for asked in (asked for asked in pick_cards() if asked.part == part):
        card = keyboard.card(asked.step)
        card.scroll_into_view_if_needed()
        assert card.evaluate(_TOO_WIDE) == [], asked.kind
    assert page.evaluate(_PANEL) <= 0
