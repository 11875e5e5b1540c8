"""The place to build a factor chain: choose factors, turn them, see units cancel."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, Dropdown, HBox, HTMLMath, VBox

from workbook.front.cancel import cancel, factor_link, start_link
from workbook.front.entry import Entry, label_answer
from workbook.front.factor import FactorRow, print_factor
from workbook.front.typeset import show_chain
from workbook.front.widget import make
from workbook.wire.answer import Answer, Built, Placed

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import ChainStep

_UNCHOSEN = ""

#: More than any relation needs; a chain without an end would only slow the page.
MOST_FACTORS = 12


class ChainPad:
    """
    A chain that starts from a value and grows by the factors that are offered.

    Parameters
    ----------
    step : ChainStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: ChainStep, bell: Bell) -> None:
        self._step = step
        self._bell = bell
        self._offers = {factor.id: factor for factor in step.offers}
        self._placed: list[Placed] = []
        self._pointed: int | None = None
        self.chain = make(HTMLMath)
        self.left = make(HTML)
        self.rows = make(VBox)
        self._pool: list[FactorRow] = []
        self._lay_chooser()
        self.entry = Entry(label_answer(step.unit), bell)
        self._show()

    @property
    def body(self) -> tuple[Widget, ...]:
        """The chooser, the chain, a row for each factor, and the box."""
        bench = make(HBox, [self.chooser, self.place_button], css="wb-bench")
        return (bench, self.chain, self.left, self.rows, self.entry.box)

    def read(self) -> Built:
        """
        Return the chain as it stands, and the result that is typed.

        Returns
        -------
        Built
            Factors in the order of placing.
        """
        return Built(tuple(self._placed), self.entry.text)

    def write(self, answer: Answer) -> None:
        """
        Put an earlier chain back.

        Parameters
        ----------
        answer : Answer
            A chain; any other kind is left out, and so are factors that the sheet
            does not offer.
        """
        if isinstance(answer, Built):
            self._placed = [p for p in answer.factors if p.factor in self._offers]
            self.entry.text = answer.text
            self._show()

    def point(self, at: int | None) -> None:
        """
        Mark the factor that a verdict speaks of.

        Parameters
        ----------
        at : int or None
            Index of the factor; None takes the mark away.
        """
        if at != self._pointed:
            self._pointed = at
            self._show()

    def place(self, factor: str) -> None:
        """
        Put a factor at the end of the chain, the way it is offered.

        Parameters
        ----------
        factor : str
            `Factor.id` of an offer; the empty text places nothing.
        """
        if factor in self._offers and len(self._placed) < MOST_FACTORS:
            self._placed.append(Placed(factor, turned=False))
            self._change()

    def turn(self, at: int) -> None:
        """
        Turn a placed factor over.

        Parameters
        ----------
        at : int
            Its index in the chain.
        """
        placed = self._placed[at]
        self._placed[at] = Placed(placed.factor, turned=not placed.turned)
        self._change()

    def take(self, at: int) -> None:
        """
        Take a placed factor away.

        Parameters
        ----------
        at : int
            Its index in the chain.
        """
        del self._placed[at]
        self._change()

    def _lay_chooser(self) -> None:
        offers = [(print_factor(factor), factor.id) for factor in self._step.offers]
        self.chooser = make(
            Dropdown,
            description="Factor",
            options=[("Choose a factor", _UNCHOSEN), *offers],
        )
        self.place_button = make(Button, description="Place it in the chain")
        self.place_button.on_click(lambda _: self.place(self.chooser.value))

    def _change(self) -> None:
        self._show()
        self._bell.change()

    def _show(self) -> None:
        """Let the widgets say what stands in the chain."""
        links = [
            start_link(self._step),
            *(
                factor_link(self._offers[placed.factor], is_turned=placed.turned)
                for placed in self._placed
            ),
        ]
        reduced = cancel(links)
        self.chain.value = show_chain(self._step.start, links, reduced)
        left = f"<strong>{escape(reduced.words)}</strong>"
        self.left.value = f'<p class="wb-left">Unit left: {left}</p>'
        self._show_rows()

    def _show_rows(self) -> None:
        """Show a row for each factor; rows are kept, so that the focus stays."""
        while len(self._pool) < len(self._placed):
            self._pool.append(FactorRow(len(self._pool), self.turn, self.take))
        for at, placed in enumerate(self._placed):
            factor = self._offers[placed.factor]
            self._pool[at].show(factor, is_pointed=at == self._pointed)
        boxes = tuple(row.box for row in self._pool[: len(self._placed)])
        if self.rows.children != boxes:
            self.rows.children = boxes
