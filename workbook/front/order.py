"""The place to put the steps of a procedure in order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.deck import Deck
from workbook.wire.answer import Answer, Ordered

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import OrderStep


class OrderPad:
    """
    A deck of cards.

    Parameters
    ----------
    step : OrderStep
        As it stands on the sheet.
    bell : Bell
        Rung when the order changes.
    """

    def __init__(self, step: OrderStep, bell: Bell) -> None:
        texts = {card.id: card.text for card in step.cards}
        self._bell = bell
        self.deck = Deck(texts, self._change)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The deck."""
        return self.deck.body

    def read(self) -> Ordered:
        """
        Return the order as it stands.

        Returns
        -------
        Ordered
            The placed cards, first to last.
        """
        return Ordered(tuple(self.deck.placed))

    def write(self, answer: Answer) -> None:
        """
        Put an earlier order back.

        Parameters
        ----------
        answer : Answer
            An order; any other kind is left out.
        """
        if isinstance(answer, Ordered):
            self.deck.put(answer.cards)

    def point(self, at: int | None) -> None:
        """
        Mark the first of two cards that a verdict speaks of.

        Parameters
        ----------
        at : int or None
            Its index in the order; None takes the mark away.
        """
        self.deck.point(at)

    def _change(self) -> None:
        self._bell.change()
