"""The place to build a factor chain."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.front.stage import CHAIN
from workbook.front.bell import Bell
from workbook.front.chain import MOST_FACTORS, ChainPad
from workbook.wire.answer import Built, Placed, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


@pytest.fixture
def pad() -> ChainPad:
    return ChainPad(CHAIN, Bell())


def row(pad: ChainPad, at: int) -> tuple[str, str, str]:
    name, turn, take = pad.rows.children[at].children
    return name.value, turn.description, take.description


def test_every_factor_is_offered_with_its_fraction(pad: ChainPad) -> None:
    labels = [label for label, _ in pad.chooser.options]
    assert labels == [
        "Choose a factor",
        "density: 0.911 g / 1 mL",
        "molar mass: your value g / 1 mol",
        "density of wax: 0.96 g / 1 mL",
    ]


def test_a_chosen_factor_is_placed_as_it_is_offered(
    pad: ChainPad, browser: Browser
) -> None:
    browser.choose(pad.chooser, 1)
    browser.click(pad.place_button)
    assert pad.read() == Built((Placed("density", turned=False),), "")
    assert r"\cancel{\text{mL almond oil}}" in pad.chain.value
    assert "<strong>g of almond oil</strong>" in pad.left.value


def test_placing_without_choosing_places_nothing(
    pad: ChainPad, browser: Browser
) -> None:
    browser.click(pad.place_button)
    assert pad.read().factors == ()
    assert "<strong>mL of almond oil</strong>" in pad.left.value


def test_a_placed_factor_can_be_turned_over_and_back(
    pad: ChainPad, browser: Browser
) -> None:
    pad.place("density")
    turn = pad.rows.children[0].children[1]
    browser.click(turn)
    assert pad.read().factors == (Placed("density", turned=True),)
    browser.click(turn)
    assert pad.read().factors == (Placed("density", turned=False),)


def test_a_placed_factor_can_be_taken_away(pad: ChainPad, browser: Browser) -> None:
    pad.place("density")
    pad.place("wax")
    browser.click(pad.rows.children[0].children[2])
    assert pad.read().factors == (Placed("wax", turned=False),)
    assert row(pad, 0)[0] == "<span>1. density of wax</span>"
    assert len(pad.rows.children) == 1


def test_the_buttons_of_a_row_say_what_they_do(pad: ChainPad) -> None:
    pad.place("density")
    pad.place("wax")
    assert row(pad, 1)[1:] == ("Turn factor 2 over", "Take factor 2 away")


def test_the_rows_stay_when_a_factor_is_turned_so_that_the_focus_stays(
    pad: ChainPad,
) -> None:
    pad.place("density")
    before = pad.rows.children
    pad.turn(0)
    assert pad.rows.children == before


def test_a_wrong_substance_does_not_cancel(pad: ChainPad) -> None:
    pad.place("wax")
    assert r"\cancel" not in pad.chain.value


def test_a_chain_has_an_end(pad: ChainPad) -> None:
    for _ in range(MOST_FACTORS + 1):
        pad.place("density")
    assert len(pad.read().factors) == MOST_FACTORS


def test_an_earlier_chain_comes_back_without_what_is_not_offered(
    pad: ChainPad,
) -> None:
    kept = (Placed("density", turned=True), Placed("gone", turned=False))
    pad.write(Built(kept, "11.3 g"))
    pad.write(Typed("another kind"))
    assert pad.read() == Built((Placed("density", turned=True),), "11.3 g")
    assert len(pad.rows.children) == 1


def test_a_verdict_points_at_a_factor_and_lets_go_again(pad: ChainPad) -> None:
    pad.place("density")
    pad.place("wax")
    pad.point(1)
    assert "look at this factor" in row(pad, 1)[0]
    assert "look at this factor" not in row(pad, 0)[0]
    pad.point(None)
    assert "look at this factor" not in row(pad, 1)[0]


def test_every_change_rings_the_bell(browser: Browser) -> None:
    rung: list[str] = []
    pad = ChainPad(CHAIN, Bell(lambda: rung.append("x"), lambda: rung.append("enter")))
    pad.place("density")
    pad.turn(0)
    pad.take(0)
    browser.type(pad.entry.box, "1")
    browser.enter(pad.entry.box)
    assert rung == ["x", "x", "x", "x", "enter"]
