"""
What must come before what: a partial order, and rules on the steps that ask for one.

It is written as sequences; in each, every card comes before all that stand behind it,
and what no sequence tells may come in any order.
"""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from typing import TYPE_CHECKING

from workbook.errors import nearest
from workbook.labfile.kind import OrderTable
from workbook.labfile.step import placed_steps

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile


def precede(sequences: Sequence[Sequence[str]]) -> frozenset[tuple[str, str]]:
    """
    Return every pair of which the first must come before the second.

    Parameters
    ----------
    sequences : sequence of sequences of str
        In each, every card comes before all that stand behind it.

    Returns
    -------
    frozenset of (str, str)
        What follows from two sequences together is among them.

    Examples
    --------
    >>> sorted(precede([["a", "b"], ["b", "c"]]))
    [('a', 'b'), ('a', 'c'), ('b', 'c')]
    """
    pairs = {pair for each in sequences for pair in combinations(each, 2)}
    while True:
        further = {(a, d) for a, b in pairs for c, d in pairs if b == c} - pairs
        if not further:
            return frozenset(pairs)
        pairs |= further


def find_breach(
    cards: Sequence[str], pairs: frozenset[tuple[str, str]]
) -> tuple[int, int] | None:
    """
    Return the two nearest cards that stand the wrong way round.

    Parameters
    ----------
    cards : sequence of str
        First to last.
    pairs : frozenset of (str, str)
        What `precede` gave.

    Returns
    -------
    (int, int) or None
        Their indexes; the earliest of those that are equally near.

    Examples
    --------
    >>> find_breach(["b", "x", "a"], precede([["a", "b"]]))
    (0, 2)
    """
    wrong = (
        (i, j)
        for i, j in combinations(range(len(cards)), 2)
        if (cards[j], cards[i]) in pairs
    )
    return min(wrong, key=lambda at: (at[1] - at[0], at[0]), default=None)


def arrange(cards: Sequence[str], pairs: frozenset[tuple[str, str]]) -> tuple[str, ...]:
    """
    Return one right order.

    Parameters
    ----------
    cards : sequence of str
        All cards; where both ways are right they keep this order.
    pairs : frozenset of (str, str)
        What `precede` gave, without a circle.

    Returns
    -------
    tuple of str
        First to last.

    Examples
    --------
    >>> arrange(["b", "x", "a"], precede([["a", "b"]]))
    ('x', 'a', 'b')
    """
    left, found = list(cards), []
    while left:
        free = (c for c in left if not any((other, c) in pairs for other in left))
        card = next(free)
        found.append(card)
        left.remove(card)
    return tuple(found)


def orders_can_be_kept(file: LabFile) -> Iterator[Finding]:
    """
    Find orders that name unknown cards, go round in a circle, or tell themselves.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    for place, step in placed_steps(file):
        if isinstance(step, OrderTable):
            for sentence in find_wrong(tuple(step.cards), step.before):
                yield (*place, "before"), sentence


def find_wrong(
    cards: Sequence[str], sequences: Sequence[Sequence[str]]
) -> Iterator[str]:
    """
    Find what is wrong with a partial order.

    Parameters
    ----------
    cards : sequence of str
        The names of all cards that have a place in it.
    sequences : sequence of sequences of str
        As they are written.

    Returns
    -------
    iterator of str
        Sentences.
    """
    names = dict.fromkeys(name for each in sequences for name in each)
    strangers = [name for name in names if name not in cards]
    for name in strangers:
        yield f"{name!r} is none of the cards.{nearest(name, cards)}"
    repeated = [n for each in sequences for n, k in Counter(each).items() if k > 1]
    for name in repeated:
        yield f"{name!r} stands in one sequence more than once."
    if strangers or repeated:
        return
    pairs = precede(sequences)
    if circle := sorted(card for card in cards if (card, card) in pairs):
        yield f"{', '.join(map(repr, circle))} would each come before itself."
    elif find_breach(sorted(cards), pairs) is None:
        yield (
            "the names of the cards, sorted, give a right order, and a student's "
            "sheet holds the names; take names that do not."
        )
