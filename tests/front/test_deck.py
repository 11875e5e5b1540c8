"""Cards that are put in order by buttons."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.front.deck import Deck

if TYPE_CHECKING:
    from ipywidgets import Widget

    from tests.front.stage import Browser

CARDS = {"s": "stir <it>", "h": "heat it", "w": "weigh it"}


@pytest.fixture
def changes() -> list[list[str]]:
    return []


@pytest.fixture
def deck(changes: list[list[str]]) -> Deck:
    made = Deck(CARDS, lambda: changes.append(list(made.placed)))
    return made


@pytest.fixture
def focused(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return the names of the buttons that were given the focus, in order."""
    given: list[str] = []

    def note(button: Widget) -> None:
        given.append(button.description)

    monkeypatch.setattr("ipywidgets.Button.focus", note)
    return given


def unplaced(deck: Deck) -> list[str]:
    return [button.description for button in deck.body[1].children]


def test_at_the_start_every_card_is_to_place(deck: Deck) -> None:
    assert unplaced(deck) == ["stir <it>", "heat it", "weigh it"]
    assert deck.placed == []


def test_a_card_that_is_pressed_comes_next(
    deck: Deck, browser: Browser, changes: list[list[str]]
) -> None:
    browser.click(deck.pool[2])
    browser.click(deck.pool[0])
    assert deck.placed == ["w", "s"]
    assert unplaced(deck) == ["heat it"]
    assert changes == [["w"], ["w", "s"]]


def test_a_card_is_moved_and_the_focus_goes_with_it(
    deck: Deck, browser: Browser, focused: list[str]
) -> None:
    deck.put("shw")
    browser.click(deck.rows[2].earlier)
    browser.click(deck.rows[1].earlier)
    browser.click(deck.rows[0].later)
    assert deck.placed == ["s", "w", "h"]
    assert focused == ["Move 2 earlier", "Move 1 earlier", "Move 2 later"]


def test_a_card_at_an_end_stays_there(
    deck: Deck, browser: Browser, changes: list[list[str]]
) -> None:
    deck.put("sh")
    browser.click(deck.rows[0].earlier)
    browser.click(deck.rows[1].later)
    assert deck.placed == ["s", "h"]
    assert changes == []


def test_the_focus_is_never_lost(
    deck: Deck, browser: Browser, focused: list[str]
) -> None:
    for _ in CARDS:
        browser.click(deck.pool[0])
    for _ in CARDS:
        browser.click(deck.rows[0].away)
    assert focused == [
        "heat it",
        "weigh it",
        "Move 3 earlier",
        "Take 1 out",
        "Take 1 out",
        "stir <it>",
    ]


def test_a_card_that_is_taken_out_can_be_placed_again(
    deck: Deck, browser: Browser
) -> None:
    deck.put("shw")
    browser.click(deck.rows[1].away)
    assert (deck.placed, unplaced(deck)) == (["s", "w"], ["heat it"])


def test_unknown_and_repeated_cards_are_left_out(deck: Deck) -> None:
    deck.put(("s", "gold", "s", "h"))
    assert deck.placed == ["s", "h"]


def test_a_card_is_marked_where_a_verdict_speaks_of_it(deck: Deck) -> None:
    deck.put("sh")
    deck.point(0)
    assert "1. stir &lt;it&gt; <em" in deck.rows[0].name.value
    deck.point(None)
    assert "<em" not in deck.rows[0].name.value
