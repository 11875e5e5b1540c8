"""Cards that are put in order by buttons alone, without dragging."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, HBox, VBox

from workbook.front.widget import make

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from ipywidgets import Widget

_TO_PLACE = "Still to place. A card that you press comes next."
_PLACED = "Your order"


class Deck:
    """
    Cards still to place, and those that are placed, each movable.

    Widgets are kept by position, since one that is taken out of the page and put in
    again loses the focus; the focus then follows the card that was moved.

    Parameters
    ----------
    cards : mapping of str to str
        The text of each card, by its id.
    change : callable
        Called after every change of the order.
    """

    def __init__(self, cards: Mapping[str, str], change: Callable[[], None]) -> None:
        self._cards = cards
        self._change = change
        self._pointed: int | None = None
        #: The placed cards, first to last.
        self.placed: list[str] = []
        #: A button for each card that is still to place.
        self.pool = [self._make_button(at) for at in range(len(cards))]
        #: A row for each place.
        self.rows = [PlaceRow(at, self.move, self.take) for at in range(len(cards))]
        self._heads = make(HTML), make(HTML)
        self._lists = make(VBox), make(VBox)
        self._lists[0].add_class("wb-deck")
        self._show()

    @property
    def body(self) -> tuple[Widget, ...]:
        """What is still to place, then what is placed, each with its heading."""
        return (self._heads[0], self._lists[0], self._heads[1], self._lists[1])

    @property
    def unplaced(self) -> list[str]:
        """The cards that are still to place, in the order of the sheet."""
        return [card for card in self._cards if card not in self.placed]

    def put(self, cards: Iterable[str]) -> None:
        """
        Put an earlier order back.

        Parameters
        ----------
        cards : iterable of str
            Ids, first to last; those that are not of this deck are left out.
        """
        known = (card for card in cards if card in self._cards)
        self.placed = list(dict.fromkeys(known))
        self._show()

    def place(self, at: int) -> None:
        """
        Place a card behind those that are placed.

        Parameters
        ----------
        at : int
            Its index among those still to place.
        """
        self.placed.append(self.unplaced[at])
        self._tell()
        left = len(self.unplaced)
        if left:
            self.pool[min(at, left - 1)].focus()
        else:
            self.rows[-1].earlier.focus()

    def move(self, at: int, by: int) -> None:
        """
        Exchange a card with one of its neighbours, if it has one there.

        Parameters
        ----------
        at : int
            Its index among those that are placed.
        by : int
            -1 for earlier, 1 for later.
        """
        to = at + by
        if 0 <= to < len(self.placed):
            self.placed[at], self.placed[to] = self.placed[to], self.placed[at]
            self._tell()
            row = self.rows[to]
            (row.earlier if by < 0 else row.later).focus()

    def take(self, at: int) -> None:
        """
        Take a card out of the order.

        Parameters
        ----------
        at : int
            Its index among those that are placed.
        """
        del self.placed[at]
        self._tell()
        if self.placed:
            self.rows[min(at, len(self.placed) - 1)].away.focus()
        else:
            self.pool[0].focus()

    def point(self, at: int | None) -> None:
        """
        Mark the first of two neighbours that a verdict speaks of.

        Parameters
        ----------
        at : int or None
            Its index; None takes the mark away.
        """
        if at != self._pointed:
            self._pointed = at
            self._show()

    def _make_button(self, at: int) -> Button:
        button = make(Button)
        button.on_click(lambda _: self.place(at))
        return button

    def _tell(self) -> None:
        self._show()
        self._change()

    def _show(self) -> None:
        left = self.unplaced
        for button, card in zip(self.pool, left, strict=False):
            button.description = self._cards[card]
        for at, card in enumerate(self.placed):
            self.rows[at].show(self._cards[card], is_pointed=at == self._pointed)
        self._heads[0].value = _head(_TO_PLACE) if left else ""
        self._heads[1].value = _head(_PLACED) if self.placed else ""
        _fill(self._lists[0], self.pool[: len(left)])
        _fill(self._lists[1], [row.box for row in self.rows[: len(self.placed)]])


class PlaceRow:
    """
    A placed card, and what can be done with it.

    Parameters
    ----------
    at : int
        The index of the place.
    move : callable
        Called with the index, and -1 or 1.
    take : callable
        Called with the index.
    """

    def __init__(
        self, at: int, move: Callable[[int, int], None], take: Callable[[int], None]
    ) -> None:
        self._number = at + 1
        self.name = make(HTML)
        self.earlier = make(Button, description=f"Move {self._number} earlier")
        self.earlier.on_click(lambda _: move(at, -1))
        self.later = make(Button, description=f"Move {self._number} later")
        self.later.on_click(lambda _: move(at, 1))
        self.away = make(Button, description=f"Take {self._number} out")
        self.away.on_click(lambda _: take(at))
        self.box = make(
            HBox, [self.name, self.earlier, self.later, self.away], css="wb-factor"
        )

    def show(self, text: str, *, is_pointed: bool) -> None:
        """
        Let the row show a card.

        Parameters
        ----------
        text : str
            What stands on it.
        is_pointed : bool
            True when a verdict speaks of it.
        """
        remark = ' <em class="wb-point">look at this card</em>' if is_pointed else ""
        self.name.value = f"<span>{self._number}. {escape(text)}{remark}</span>"


def _head(text: str) -> str:
    return f'<p class="wb-note wb-deck-head">{text}</p>'


def _fill(box: VBox, children: list[Widget]) -> None:
    """Change what a box holds only where it must be, so that the focus stays."""
    if box.children != tuple(children):
        box.children = tuple(children)
