"""The verdict on an order."""

from __future__ import annotations

from itertools import permutations

import pytest

from workbook.judge.order import judge_order
from workbook.wire.verdict import Outcome

TEXTS = {"on": "Water on", "pour": "Pour", "off": "Hose off", "rinse": "Rinse"}
BEFORE = (("on", "pour", "off"), ("pour", "rinse"))

#: By hand: on, then pour, then hose and rinse either way.
RIGHT: set[tuple[str, ...]] = {
    ("on", "pour", "off", "rinse"),
    ("on", "pour", "rinse", "off"),
}


@pytest.mark.parametrize("cards", list(permutations(TEXTS)), ids=" ".join)
def test_what_the_order_leaves_open_may_stand_either_way(
    cards: tuple[str, ...],
) -> None:
    verdict = judge_order(cards, TEXTS, BEFORE)
    assert verdict.value_holds == (cards in RIGHT)
    assert verdict.outcome is (Outcome.RIGHT if cards in RIGHT else Outcome.WRONG)


def test_two_neighbours_are_named_and_not_which_comes_first() -> None:
    verdict = judge_order(("on", "off", "pour", "rinse"), TEXTS, BEFORE)
    assert verdict.at == 1
    assert "“Hose off” and “Pour”" in verdict.sentence
    assert "Water on" not in verdict.sentence
    assert "before" not in verdict.sentence


def test_of_several_pairs_the_nearest_is_named() -> None:
    verdict = judge_order(("rinse", "on", "pour", "off"), TEXTS, BEFORE)
    # On must come before rinse because pour does: these two are neighbours.
    assert "“Rinse” and “Water on”" in verdict.sentence


@pytest.mark.parametrize(
    ("cards", "outcome"),
    [
        ((), Outcome.BLANK),
        (("on", "pour"), Outcome.PARTLY),
        (("pour", "on"), Outcome.WRONG),
        (("on", "on"), Outcome.UNREAD),
        (("on", "gold"), Outcome.UNREAD),
    ],
)
def test_what_is_no_whole_order_earns_nothing(
    cards: tuple[str, ...], outcome: Outcome
) -> None:
    verdict = judge_order(cards, TEXTS, BEFORE)
    assert verdict.outcome is outcome
    assert not verdict.value_holds
