"""The verdict on a mechanism: what does not belong, and what stands the wrong way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.judge.order import judge_order
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from workbook.labfile.form import MechanismForm


def judge_mechanism(
    cards: Sequence[str],
    form: MechanismForm,
    sequences: Sequence[Sequence[str]],
    decoys: Collection[str],
) -> Verdict:
    """
    Return the verdict on the steps of a mechanism.

    Parameters
    ----------
    cards : sequence of str
        As they were placed, first to last.
    form : MechanismForm
        What stands on each card.
    sequences : sequence of sequences of str
        The partial order of the cards that belong.
    decoys : collection of str
        The cards that do not.

    Returns
    -------
    Verdict
        A card that loses atoms or charge is named, since that can be seen on it; one
        that does not belong for another reason is not.
    """
    for at, card in enumerate(cards):
        move = form.moves.get(card)
        if card in decoys and move is not None and not move.change.is_balanced:
            sentence = words.CARD_UNBALANCED.format(card=move.text)
            return Verdict(Outcome.WRONG, sentence, at=at)
    if set(cards) & set(decoys):
        return Verdict(Outcome.WRONG, words.CARD_FOREIGN)
    texts = {key: each.text for key, each in form.moves.items() if key not in decoys}
    return judge_order(cards, texts, sequences)
