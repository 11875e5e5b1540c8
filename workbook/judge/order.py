"""The verdict on an order: which two cards stand the wrong way round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.labfile.order import find_breach, precede
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


def judge_order(
    cards: Sequence[str],
    texts: Mapping[str, str],
    sequences: Sequence[Sequence[str]],
) -> Verdict:
    """
    Return the verdict on an order.

    Parameters
    ----------
    cards : sequence of str
        As they were placed, first to last.
    texts : mapping of str to str
        What stands on each card that has a place.
    sequences : sequence of sequences of str
        The partial order, as `precede` takes it.

    Returns
    -------
    Verdict
        RIGHT, WRONG, PARTLY where cards are still missing, BLANK where none is
        placed, or UNREAD for what no deck gives. Of a wrong order it names two of
        the cards, and not which comes first.
    """
    if len(set(cards)) < len(cards) or not set(cards) <= texts.keys():
        return Verdict(Outcome.UNREAD, words.OTHER_KIND)
    breach = find_breach(cards, precede(sequences))
    if breach is not None:
        first, second = (texts[cards[at]] for at in breach)
        sentence = words.ORDER_BREACH.format(first=first, second=second)
        return Verdict(Outcome.WRONG, sentence, at=breach[0])
    if len(cards) < len(texts):
        return _unfinished(cards)
    return Verdict(Outcome.RIGHT, words.RIGHT_ORDER, value_holds=True)


def _unfinished(cards: Sequence[str]) -> Verdict:
    if cards:
        return Verdict(Outcome.PARTLY, words.ORDER_MISSING)
    return Verdict(Outcome.BLANK, words.UNPLACED)
