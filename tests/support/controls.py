"""The controls of a card, and a card with as much in it as it can show."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import TYPE_CHECKING

from playwright.sync_api import TimeoutError as Late

if TYPE_CHECKING:
    from playwright.sync_api import ElementHandle, Locator

_CONTROLS = "input, select, textarea, button, summary, a[href], [tabindex='0']"

_IS_THERE = "element => element.checkVisibility() && !element.disabled"

_LABEL = """element => [
  element.tagName.toLowerCase(),
  element.type ?? "",
  element.getAttribute("aria-label")
    ?? element.labels?.[0]?.textContent ?? element.textContent.slice(0, 40),
].join(" ").trim()"""

_PLACE = re.compile("Place it")
_TURN = re.compile("Turn factor")

#: What the crucible of the kiln lab can weigh, and the chalk in it can't.
OWN_READING = "24.50 g"

#: How many factors a chain is given, so that each of their buttons is there.
FACTORS = 2

#: How long a busy machine may take to show a factor [ms].
SETTLING_MS = 20_000


def list_controls(card: Locator) -> dict[str, ElementHandle]:
    """Return what can have the focus in a card, by a name for a person."""
    found = card.locator(_CONTROLS).element_handles()
    there = [each for each in found if each.evaluate(_IS_THERE)]
    return {f"{at}: {each.evaluate(_LABEL)}": each for at, each in enumerate(there)}


def fill(card: Locator) -> None:
    """Place factors in a chain, and type what is missing in each box for text."""
    _note(card)
    place = card.get_by_role("button", name=_PLACE)
    if place.count():
        _place_factors(card, place)
    for area in card.locator("textarea").all():
        if not area.input_value():
            area.fill("x = 3(a + 1)/2\nx + = y")
    for box in card.locator("input[type=text]").all():
        if not box.input_value():
            box.fill("0.0317 mL")


def _note(card: Locator) -> None:
    """Try to note an own reading, and open what changes one that is noted."""
    note = card.get_by_role("button", name="Note this reading", disabled=False)
    if note.count():
        card.locator("input[type=text]").fill(OWN_READING)
        note.click()
        card.locator(".wb-word").wait_for()
    opener = card.get_by_role("button", name="Change this reading")
    if opener.count():
        opener.click()
        card.get_by_role("button", name="Change it").wait_for()


def _place_factors(card: Locator, place: Locator) -> None:
    turns = card.get_by_role("button", name=_TURN)
    while (placed := turns.count()) < FACTORS:
        card.locator("select").first.select_option(index=placed + 1)
        place.click()
        # A factor that was taken away by an earlier key may go only now: count again.
        with suppress(Late):
            turns.nth(placed).wait_for(timeout=SETTLING_MS)


def check(card: Locator) -> None:
    """Have a card's answer judged, or its hand-in written, by the mouse."""
    button = card.locator(".wb-check:enabled")
    if button.count():
        button.click()
        card.locator(".wb-says p").filter(has_not_text="Checking").first.wait_for()
