"""
axe-core in a page: what it finds wrong with a card for those who don't see it.

It is a package of npm, which is not kept in the repository:
``npm install --no-save axe-core`` lays it where it is found.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

#: Names the file ``axe.min.js`` where it does not lie in the repository's own folder.
VARIABLE = "WORKBOOK_AXE"

_USUAL = Path(__file__).parents[2] / "node_modules" / "axe-core" / "axe.min.js"

#: Without a height the body of JupyterLab, which cuts off what reaches out of it, makes
#: axe-core take every text of the page for hidden, and judge none.
_HEIGHT = "body { height: 100vh; }"

#: The rules of axe-core that are made for a whole page are JupyterLab's to keep.
_RUN = """async (card) => {
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
  const run = { runOnly: { type: "tag", values: tags } };
  const found = await window.axe.run(card, run);
  const tell = (rules) => rules.flatMap(({ id, nodes }) =>
    nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  const isContrast = ({ id }) => id === "color-contrast";
  const open = tell(found.incomplete.filter(isContrast));
  return {
    wrong: [...tell(found.violations), ...open.filter((at) => !at.includes(": <text"))],
    readable: tell(found.passes.filter(isContrast)),
  };
}"""

#: axe-core leaves text in a drawing open. The contrast of WCAG 2.2 (relative luminance,
#: success criterion 1.4.3) of each, on what a pixel of the drawing has below it.
_DRAWN = """(card) => {
  const canvas = document.createElement("canvas").getContext("2d");
  const lay = (colours) => {
    canvas.clearRect(0, 0, 1, 1);
    for (const colour of colours) {
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
    }
    const parts = [...canvas.getImageData(0, 0, 1, 1).data].slice(0, 3);
    const [r, g, b] = parts.map((part) => part / 255).map((part) =>
      part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const isFilled = (at) => at instanceof SVGElement && at.tagName !== "svg"
    && at.tagName !== "text" && getComputedStyle(at).fill !== "none";
  const below = (text) => {
    const { left, top, width, height } = text.getBoundingClientRect();
    const at = document.elementsFromPoint(left + width / 2, top + height / 2);
    return at.reverse().map((each) => each instanceof SVGElement
      ? (isFilled(each) ? getComputedStyle(each).fill : "transparent")
      : getComputedStyle(each).backgroundColor);
  };
  return [...card.querySelectorAll("svg text")].map((text) => {
    text.scrollIntoView({ block: "center" });
    const ground = below(text);
    const two = [lay(ground), lay([...ground, getComputedStyle(text).fill])];
    return [text.textContent, (Math.max(...two) + 0.05) / (Math.min(...two) + 0.05)];
  });
}"""

#: What text of any size must have [-].
_CONTRAST = 4.5


def find_axe() -> Path:
    """Return where axe-core lies; without it the test is skipped, in CI it fails."""
    path = Path(os.environ.get(VARIABLE) or _USUAL)
    if path.is_file():
        return path
    reason = (
        f"no axe-core at {path}; run npm install --no-save axe-core, or set {VARIABLE}."
    )
    if os.environ.get("CI"):
        pytest.fail(f"In CI a missing tool is a failure: {reason}")
    pytest.skip(reason)


def load_axe(page: Page) -> None:
    """Bring axe-core into a page."""
    page.evaluate(find_axe().read_text(encoding="utf-8"))
    page.add_style_tag(content=_HEIGHT)


def find_violations(element: Locator) -> list[str]:
    """
    Return what axe-core finds wrong in an element.

    Parameters
    ----------
    element : Locator
        In sight; what is hidden is not judged.

    Returns
    -------
    list of str
        The rule and the place of each; a contrast that it can't judge is one as well.

    Raises
    ------
    AssertionError
        If it did not judge the colours of the question: a check of nothing.
    """
    element.scroll_into_view_if_needed()
    found = element.evaluate(_RUN)
    if not any("wb-asks" in said for said in (*found["readable"], *found["wrong"])):
        msg = f"axe-core did not judge the question of {element}: {found}"
        raise AssertionError(msg)
    drawn = element.evaluate(_DRAWN)
    faint = [
        f"drawn: {text!r} {ratio:.2f}" for text, ratio in drawn if ratio < _CONTRAST
    ]
    return [*found["wrong"], *faint]
