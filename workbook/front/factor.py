"""A factor of a chain in words, and its row of buttons once it is placed."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, HBox

from workbook.front.widget import make

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.wire.sheet import Factor


def print_factor(factor: Factor) -> str:
    """
    Return a factor on one line, as it is offered.

    Parameters
    ----------
    factor : Factor
        From the sheet.

    Returns
    -------
    str
        ``"density of olive oil: 0.911 g / 1 mL"``.
    """
    top = f"{factor.top or 'your value'} {factor.top_unit}".strip()
    bottom = f"{factor.bottom or 'your value'} {factor.bottom_unit}".strip()
    return f"{factor.label}: {top} / {bottom}"


class FactorRow:
    """
    The name of a placed factor, and what can be done with it.

    Parameters
    ----------
    at : int
        Its index in the chain.
    turn, take : callable
        Called with the index when the student asks for it.
    """

    def __init__(
        self, at: int, turn: Callable[[int], None], take: Callable[[int], None]
    ) -> None:
        self._number = at + 1
        self.name = make(HTML)
        self.turn = make(Button, description=f"Turn factor {self._number} over")
        self.turn.on_click(lambda _: turn(at))
        self.take = make(Button, description=f"Take factor {self._number} away")
        self.take.on_click(lambda _: take(at))
        self.box = make(HBox, [self.name, self.turn, self.take], css="wb-factor")

    def show(self, factor: Factor, *, is_pointed: bool) -> None:
        """
        Let the row speak of a factor.

        Parameters
        ----------
        factor : Factor
            Which one stands here now.
        is_pointed : bool
            True when a verdict speaks of it.
        """
        remark = ' <em class="wb-point">look at this factor</em>' if is_pointed else ""
        self.name.value = f"<span>{self._number}. {escape(factor.label)}{remark}</span>"
