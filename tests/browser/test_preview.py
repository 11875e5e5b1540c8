"""The preview in a real Chromium, by keyboard, in both themes, as a lab is written."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.axe import find_violations, load_axe
from tests.support.command import run
from tests.support.keyboard import Keyboard
from tests.support.lab import CHALK, edit
from tests.support.lab_server import start_lab
from tests.support.notebook_view import NotebookView

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

pytestmark = [pytest.mark.browser, pytest.mark.service]

#: How far a card and its key stand apart, from one's left edge to the other's [px].
_APART = """pair => {
  const [card, key] = pair.querySelectorAll(":scope > .wb-side");
  const [a, b] = [card.getBoundingClientRect(), key.getBoundingClientRect()];
  return [b.left - a.left, b.top - a.top];
}"""


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of a lab that is being written."""
    folder = tmp_path_factory.mktemp("author") / "chalk"
    folder.mkdir()
    save(folder)
    return folder


@pytest.fixture(scope="module")
def page(
    browser: Browser, lab: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Page]:
    """Make a preview by its command, and open it as the command says."""
    folder = tmp_path_factory.mktemp("preview")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert run("preview", lab, "--no-open").exit_code == 0
    (place,) = (folder / "previews").iterdir()
    with start_lab(place, tmp_path_factory.mktemp("home")) as server:
        opened = server.open(browser, "preview.ipynb")
        # As high as its pairs: axe-core judges no colour of what is out of sight.
        opened.set_viewport_size({"width": 1500, "height": 3600})
        load_axe(opened)
        Keyboard(opened).choose("Run All Cells")
        opened.get_by_text("Key of variant 1").wait_for()
        yield opened
        opened.close()


def save(folder: Path, *edits: tuple[str, str]) -> None:
    """Write the lab file as an author saves it."""
    (folder / "lab.toml").write_text(edit(CHALK, *edits), encoding="utf-8")


def test_axe_finds_nothing_wrong_with_the_preview(page: Page) -> None:
    found = {}
    for theme in ("light", "dark"):
        NotebookView(page).use_theme(theme)
        found[theme] = find_violations(page.locator(".wb-preview"))
    NotebookView(page).use_theme("light")
    assert found == {"light": [], "dark": []}


def test_another_variant_is_shown_by_keyboard_with_its_key(page: Page) -> None:
    keys = Keyboard(page)
    values = page.locator(".wb-key table").first
    first = values.text_content()
    keys.fill(page.get_by_role("spinbutton", name="Variant"), "2")
    page.keyboard.press("Enter")
    page.get_by_text("Key of variant 2").wait_for()
    assert values.text_content() != first
    keys.fill(page.get_by_role("spinbutton", name="Variant"), "1")
    page.keyboard.press("Enter")
    page.get_by_text("Key of variant 1").wait_for()
    assert values.text_content() == first


def test_the_answer_of_the_key_is_right_on_the_card_beside_it(page: Page) -> None:
    keys = Keyboard(page)
    keys.tab_to(page.get_by_label("Notebook"))
    page.keyboard.type("After")
    pair = page.locator(".wb-pair").filter(has=page.locator('[id="wb-percent_yield"]'))
    pair.wait_for()
    answer = pair.locator(".wb-key dd strong").inner_text()
    keys.fill(pair.get_by_role("textbox"), answer)
    assert "Agrees." in keys.check("percent_yield")


def test_the_key_stands_beside_its_card_or_below_it_where_it_is_narrow(
    page: Page,
) -> None:
    pair = page.locator(".wb-pair").nth(1)
    right, down = pair.evaluate(_APART)
    assert right > 300
    assert abs(down) < 30
    page.set_viewport_size({"width": 700, "height": 3600})
    right, down = pair.evaluate(_APART)
    page.set_viewport_size({"width": 1500, "height": 3600})
    assert right == 0
    assert down > 100


def test_a_mistake_that_is_saved_is_told_until_it_is_mended(
    page: Page, lab: Path
) -> None:
    status = page.locator(".wb-preview [role=status]").first
    save(lab, ("revision = 1", "revision = 0"))
    status.get_by_text("lab.revision: 0 stands here").wait_for()
    assert "lab.toml:" in status.inner_text()
    save(lab, ('"Chalk in acid"', '"Chalk, mended"'))
    page.get_by_role("heading", name="Chalk, mended").wait_for()
    # The heading and what is said of the file come in messages of their own.
    status.get_by_text("To mend").wait_for(state="detached")


def test_keys_in_the_preview_do_not_reach_the_notebook(page: Page) -> None:
    keys, before = Keyboard(page), NotebookView(page).cells()
    keys.tab_to(page.locator(".wb-key summary").first)
    for key in ("d", "d", "m", "ArrowDown", "x"):
        page.keyboard.press(key)
    assert NotebookView(page).cells() == before
