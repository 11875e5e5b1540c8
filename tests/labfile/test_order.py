"""Partial orders: what follows from sequences, and what is wrong with some."""

from __future__ import annotations

from graphlib import TopologicalSorter
from itertools import pairwise, permutations
from typing import TYPE_CHECKING

import pytest

from tests.support.lab import LIME, find_mistakes
from workbook.labfile.order import arrange, find_breach, find_wrong, precede

if TYPE_CHECKING:
    from pathlib import Path

NAMES = ("c", "a", "d", "b")

#: Sequences, and how many of the 24 orders keep them, counted by hand.
COUNTED = [
    ([["c", "a", "d", "b"]], 1),
    ([["c", "a"]], 12),
    ([["c", "a"], ["d", "b"]], 6),
    ([["c", "a", "b"], ["c", "d", "b"]], 2),
    ([["c", "a"], ["c", "d"], ["c", "b"]], 6),
]


@pytest.mark.parametrize(("sequences", "count"), COUNTED)
def test_as_many_orders_are_right_as_were_counted(
    sequences: list[list[str]], count: int
) -> None:
    pairs = precede(sequences)
    right = [cards for cards in permutations(NAMES) if not find_breach(cards, pairs)]
    assert len(right) == count


@pytest.mark.parametrize(("sequences", "count"), COUNTED)
def test_the_order_that_is_offered_is_one_that_the_library_finds_ready(
    sequences: list[list[str]], count: int
) -> None:
    """Each card is among those that `graphlib` says can come next."""
    sorter: TopologicalSorter[str] = TopologicalSorter(dict.fromkeys(NAMES, ()))
    for each in sequences:
        for first, second in pairwise(each):
            sorter.add(second, first)
    sorter.prepare()
    ready: set[str] = set()
    for card in arrange(NAMES, precede(sequences)):
        ready |= set(sorter.get_ready())
        assert card in ready, count
        sorter.done(card)


def test_where_nothing_is_told_the_given_order_is_kept() -> None:
    assert arrange(NAMES, frozenset()) == NAMES


def test_nothing_is_wrong_with_an_order_whose_names_do_not_tell_it() -> None:
    assert list(find_wrong(NAMES, [["c", "a", "b"]])) == []


@pytest.mark.parametrize(
    ("sequences", "says"),
    [
        ([["c", "x"]], "'x' is none of the cards."),
        ([["c", "a", "c"]], "'c' stands in one sequence more than once."),
        ([["c", "a"], ["a", "c"]], "'a', 'c' would each come before itself."),
        ([["a", "b"]], "the names of the cards, sorted, give a right order"),
    ],
)
def test_an_order_that_can_not_be_kept_is_told(
    sequences: list[list[str]], says: str
) -> None:
    (sentence,) = find_wrong(NAMES, sequences)
    assert sentence.startswith(says)


def test_a_wrong_order_is_found_where_it_stands(tmp_path: Path) -> None:
    (found,) = find_mistakes(tmp_path, ('["paper", "wet"', '["papr", "wet"'), lab=LIME)
    assert found.at.startswith("before = ")
    assert found.sentence == "'papr' is none of the cards. Did you mean 'paper'?"
