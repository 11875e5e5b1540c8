"""A student who answers every card of a lab rightly, and hands in."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from tests.support.answering import read_word

if TYPE_CHECKING:
    from collections.abc import Mapping

    from playwright.sync_api import Locator, Page


class Play(NamedTuple):
    """What a student answers, by step."""

    #: What is ticked, by the beginning of its text.
    ticked: Mapping[str, str]
    #: What is placed in a chain, by a part of its name, and whether turned over.
    placed: Mapping[str, tuple[str, bool]]
    #: What is typed.
    typed: Mapping[str, str]
    #: What is written where there is more than one line.
    written: Mapping[str, str]


def answer_card(card: Locator, step: str, play: Play) -> str:
    """Answer the card of a step, and return the first word of the verdict."""
    if step in play.placed:
        _place(card, *play.placed[step])
    if step in play.ticked:
        card.get_by_label(play.ticked[step]).check()
    elif step in play.written:
        for area in card.locator("textarea").all():
            area.fill(play.written[step])
    else:
        card.locator("input[type=text]").last.fill(play.typed[step])
    # Once, and by key: a chain that is set late can move the button from under a mouse.
    card.locator(".wb-check").press("Enter")
    return read_word(card)


def _place(card: Locator, factor: str, is_turned: bool) -> None:  # noqa: FBT001  unpacked
    select = card.locator("select").first
    # Options come after their list: this waits for the one that is meant.
    label = select.locator("option").filter(has_text=factor).first.text_content()
    select.select_option(label=label)
    card.get_by_role("button", name="Place it").click()
    turn = card.get_by_role("button", name="Turn factor 1 over")
    turn.wait_for()
    if is_turned:
        turn.click()


def hand_in(card: Locator, page: Page, file: str) -> None:
    """Write the hand-in, and wait until the card names its file."""
    card.get_by_role("button", name="Write the hand-in").click()
    page.get_by_text(file).first.wait_for()
