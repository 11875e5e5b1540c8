"""
Each kind of card in both themes, judged by axe-core after the WCAG 2.2 at level AA.

A card is judged with as much in it as it can show: factors placed, lines typeset, a
verdict said. JupyterLab around it has findings of its own, which are not ours.
"""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest

from tests.support.axe import find_violations, load_axe
from tests.support.controls import check, fill, list_controls
from tests.support.issued import GATED_STUDENT, NOTEBOOKS, Asked, pick_cards
from tests.support.keyboard import Keyboard
from tests.support.lab import OLIVE_OIL
from tests.support.lab_server import start_lab
from tests.support.notebook_view import NotebookView
from workbook.solver.__main__ import COURSE_VARIABLE as COURSE

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Locator, Page

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "c8n3"
CARDS = pick_cards()
THEMES = ("light", "dark")

#: What a screen reader says first of a card and of its verdict.
_NAMES = """card => {
  const heading = document.getElementById(card.getAttribute("aria-labelledby"));
  const status = card.querySelector("[role=status]");
  return [card.getAttribute("role"), heading?.textContent ?? "", status?.textContent];
}"""

#: How far the outline of the element with the focus stands out [px].
_OUTLINE = """element => {
  const style = getComputedStyle(element);
  return style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth);
}"""


@pytest.fixture(scope="module")
def views(server: LabServer, browser: Browser) -> Iterator[dict[str, NotebookView]]:
    """Open the notebooks of a student, by part, with axe-core in them."""
    pages = [server.open(browser, f"{STUDENT}/{path}") for path in NOTEBOOKS.values()]
    for page in pages:
        load_axe(page)
        Keyboard(page).wait_until_live()
    yield dict(zip(NOTEBOOKS, map(NotebookView, pages), strict=True))
    for page in pages:
        page.close()


@pytest.fixture(scope="module", params=THEMES)
def themed(
    request: pytest.FixtureRequest, views: dict[str, NotebookView]
) -> Iterator[dict[str, NotebookView]]:
    """Show them in one theme, for all cards before they change to the other."""
    for view in views.values():
        view.use_theme(request.param)
    yield views
    for view in views.values():
        view.use_theme("light")


def show(views: dict[str, NotebookView], asked: Asked) -> Locator:
    """Bring a card into sight, filled and judged."""
    page = views[asked.part].page
    page.bring_to_front()
    card = Keyboard(page).card(asked.step)
    card.scroll_into_view_if_needed()
    if not card.locator(".wb-says p").count():
        fill(card)
        check(card)
    return card


def open_head(page: Page) -> Locator:
    """Return the head of a page that was opened just now, with axe-core in it."""
    load_axe(page)
    Keyboard(page).wait_until_live()
    return Keyboard(page).card("head")


def judge_themes(page: Page, card: Locator) -> dict[str, list[str]]:
    """Return what axe-core finds wrong with a card in each theme."""
    found = {}
    for theme in THEMES:
        NotebookView(page).use_theme(theme)
        found[theme] = find_violations(card)
    NotebookView(page).use_theme("light")
    return found


@pytest.mark.parametrize("asked", CARDS, ids=[card.kind for card in CARDS])
def test_axe_finds_nothing_wrong_with_a_card(
    themed: dict[str, NotebookView], asked: Asked
) -> None:
    assert find_violations(show(themed, asked)) == []


def test_axe_finds_nothing_wrong_with_a_gate_that_is_shut(
    server: LabServer, browser: Browser
) -> None:
    page = server.open(browser, f"{GATED_STUDENT}/{NOTEBOOKS['postlab']}")
    head = open_head(page)
    assert head.get_by_role("button", name="Ask for the readings").is_visible()
    assert judge_themes(page, head) == {"light": [], "dark": []}
    page.close()


def test_axe_finds_nothing_wrong_with_a_page_for_practice(
    browser: Browser, tmp_path: Path
) -> None:
    shutil.copytree(OLIVE_OIL, tmp_path / "folder")
    (tmp_path / "home").mkdir()
    # Without the variable that names a course the lab beside the notebook is served.
    with start_lab(tmp_path / "folder", tmp_path / "home", env={COURSE: ""}) as server:
        page = server.open(browser, "prelab.ipynb")
        head = open_head(page)
        assert head.get_by_role("button", name="New values").is_visible()
        card = Keyboard(page).card("lye_needed_volume")
        fill(card)
        check(card)
        card.get_by_role("button", name="Show the worked answer").click()
        card.get_by_role("group", name="Worked answer").wait_for()
        found = [judge_themes(page, each) for each in (head, card)]
        assert found == [{"light": [], "dark": []}] * 2
        page.close()


@pytest.mark.parametrize("asked", CARDS, ids=[card.kind for card in CARDS])
def test_a_card_and_what_it_says_have_a_role_and_a_name(
    views: dict[str, NotebookView], asked: Asked
) -> None:
    role, name, said = show(views, asked).evaluate(_NAMES)
    assert role == "group"
    assert name
    assert said or asked.kind == "head"


@pytest.mark.parametrize("asked", CARDS, ids=[card.kind for card in CARDS])
def test_the_focus_is_seen_on_every_control(
    views: dict[str, NotebookView], asked: Asked
) -> None:
    card = show(views, asked)
    # The browser shows a ring to whoever last pressed a key.
    views[asked.part].page.keyboard.press("Shift")
    for name, control in list_controls(card).items():
        control.evaluate("element => element.focus()")
        assert control.evaluate(_OUTLINE) >= 2, name


def test_axe_finds_a_question_that_can_hardly_be_read(
    views: dict[str, NotebookView],
) -> None:
    """Show that the tests above could fail: last, since it spoils a card."""
    asked = next(card for card in CARDS if card.kind == "number")
    views[asked.part].use_theme("light")
    card = show(views, asked)
    card.locator(".wb-asks").evaluate("heading => heading.style.color = '#bbb'")
    found = find_violations(card)
    assert [said.partition(":")[0] for said in found] == ["color-contrast"]
