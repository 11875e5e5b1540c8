"""A card of any kind answered by the mouse: something judgeable, right or wrong."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Locator

#: The unit that a box asks for stands at the end of its label.
_UNIT = re.compile(r"\(([^()]+)\)\s*$")

_PLACE_FACTOR = re.compile("Place it")

#: How many cards are put in order: what is placed is judged, whole or not.
_CARDS = 2

#: What a box is labelled with, and what stands behind it in a cell of a table.
_LABEL = """box => [
  box.getAttribute("aria-label") ?? box.labels?.[0]?.textContent ?? "",
  box.parentElement.querySelector("span[aria-hidden]")?.textContent ?? "",
]"""


def answer(card: Locator, line: str) -> None:
    """
    Answer a card with something that can be judged, and ask for the verdict.

    The verdict is not waited for, so that the next card is filled meanwhile.

    Parameters
    ----------
    card : Locator
        The card of a step.
    line : str
        What is written where there is more than one line.
    """
    _place(card)
    _pick(card)
    _type(card, line)
    card.locator(".wb-check").click()


def read_word(card: Locator) -> str:
    """Wait for the verdict on a card, and return its first word."""
    return card.locator(".wb-word").text_content() or ""


def _place(card: Locator) -> None:
    """Put a factor into the chain, or one card after the other in order."""
    factor = card.get_by_role("button", name=_PLACE_FACTOR)
    if factor.count():
        card.locator("select").first.select_option(index=1)
        factor.click()
        return
    offered = card.locator(".wb-deck button")
    for left in range(offered.count(), 0, -1)[:_CARDS]:
        offered.first.click()
        offered.nth(left - 1).wait_for(state="detached")


def _pick(card: Locator) -> None:
    """Take the first of what can be ticked, and of each list."""
    for row in card.locator("select").all():
        if not row.evaluate("select => select.selectedIndex"):
            row.select_option(index=1)
    ticks = card.locator("input[type=radio], input[type=checkbox]")
    if ticks.count():
        ticks.first.check()


def _type(card: Locator, line: str) -> None:
    """Type a number with the unit that is asked into each box, and a line."""
    for area in card.locator("textarea").all():
        area.fill(line)
    for box in card.locator("input[type=text]").all():
        label, behind = box.evaluate(_LABEL)
        found = _UNIT.search(label)
        unit = behind.strip() or (found[1] if found else "")
        number = "130.0-135.0" if "from low to high" in label else "0.0317"
        box.fill(f"{number} {unit}".strip())
