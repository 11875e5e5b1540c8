"""The place to lay the steps of a mechanism, with the balance of each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML

from workbook.front.balance import show_balance
from workbook.front.deck import Deck
from workbook.front.widget import make
from workbook.wire.answer import Answer, Ordered

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import MechanismStep


class MechanismPad:
    """
    A deck of cards, not all of which belong, and the balance of those placed.

    Parameters
    ----------
    step : MechanismStep
        As it stands on the sheet.
    bell : Bell
        Rung when the order changes.
    """

    def __init__(self, step: MechanismStep, bell: Bell) -> None:
        self._moves = {move.id: move for move in step.cards}
        self._bell = bell
        texts = {move.id: f"{move.text}: {move.change}" for move in step.cards}
        self.deck = Deck(texts, self._change)
        self.balance = make(HTML)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The deck, and the balance."""
        return (*self.deck.body, self.balance)

    def read(self) -> Ordered:
        """
        Return the steps as they stand.

        Returns
        -------
        Ordered
            The placed cards, first to last.
        """
        return Ordered(tuple(self.deck.placed))

    def write(self, answer: Answer) -> None:
        """
        Put earlier steps back.

        Parameters
        ----------
        answer : Answer
            An order; any other kind is left out.
        """
        if isinstance(answer, Ordered):
            self.deck.put(answer.cards)
            self._show()

    def point(self, at: int | None) -> None:
        """
        Mark the card that a verdict speaks of.

        Parameters
        ----------
        at : int or None
            Its index in the order; None takes the mark away.
        """
        self.deck.point(at)

    def _change(self) -> None:
        self._show()
        self._bell.change()

    def _show(self) -> None:
        placed = [self._moves[card] for card in self.deck.placed]
        self.balance.value = show_balance(placed)
