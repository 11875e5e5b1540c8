"""Every page that a command writes for people, judged by axe-core in both schemes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.axe import find_axe
from tests.support.command import run
from tests.support.soap import LAB, make_course

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

PAGES = (
    f"marks/pages/a1/{LAB}.html",
    "marks/class.html",
    "marks/signals.html",
    "issued/instructor/answers.html",
    "papers/papers.html",
    "papers/answers.html",
)

#: These are whole pages, so that all rules of the WCAG 2.2 at level AA are theirs to
#: keep, and the common practice of landmarks and headings as well.
_RUN = """async () => {
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
  const run = { runOnly: { type: "tag", values: [...tags, "best-practice"] } };
  const { violations, passes } = await window.axe.run(document, run);
  const tell = ({ id, nodes }) =>
    nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`);
  return [violations.flatMap(tell), passes.map(({ id }) => id)];
}"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Issue, print and mark a small course."""
    place = tmp_path_factory.mktemp("pages")
    course = make_course(place)
    run("issue", course, "--to", place / "issued")
    run("paper", course, "--to", place / "papers", "--pick", LAB)
    run("pretend", course, "--to", place / "in")
    run("mark", course, "--handins", place / "in", "--to", place / "marks")
    return place


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_nothing_wrong_with_a_page(
    browser: Browser, folder: Path, path: str, scheme: str
) -> None:
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    page.goto((folder / path).as_uri())
    page.evaluate(find_axe().read_text(encoding="utf-8"))
    wrong, passed = page.evaluate(_RUN)
    context.close()
    assert wrong == []
    assert "color-contrast" in passed


def test_no_column_of_the_class_report_is_cut_off_on_paper(
    browser: Browser, folder: Path
) -> None:
    # A4 (ISO 216) is 210 mm wide; between the margins of the page stand 178 mm.
    page = browser.new_page(viewport={"width": round(178 / 25.4 * 96), "height": 900})
    page.emulate_media(media="print")
    page.goto((folder / "marks/class.html").as_uri())
    reach = "[...document.querySelectorAll('.scroll')].map((at) => at.scrollWidth)"
    room = "[...document.querySelectorAll('.scroll')].map((at) => at.clientWidth)"
    assert page.evaluate(reach) == page.evaluate(room) != []
    page.close()


def test_the_sum_of_a_page_handed_back_is_printed_once(
    browser: Browser, folder: Path
) -> None:
    page = browser.new_page()
    page.emulate_media(media="print")
    page.goto((folder / f"marks/pages/a1/{LAB}.html").as_uri())
    shown = page.locator("tfoot").evaluate("foot => getComputedStyle(foot).display")
    page.close()
    # A browser says a group of this kind again on every page (CSS 2.2, section 17.2).
    assert shown != "table-footer-group"
