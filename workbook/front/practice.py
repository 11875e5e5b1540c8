"""Fresh values for a page of practice, as often as wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, VBox

from workbook.errors import CheckerError, TaskError
from workbook.front.saying import show_note
from workbook.front.widget import make

if TYPE_CHECKING:
    from collections.abc import Callable

_FRESH = "Every value on this page is new; what you answered before is gone from it."


class PracticePanel:
    """
    The button that gives a page new values.

    Parameters
    ----------
    renew : callable
        Puts a fresh sheet in the place of the page's.
    """

    def __init__(self, renew: Callable[[], None]) -> None:
        self._renew = renew
        self.button = make(Button, description="New values")
        self.button.on_click(lambda _: self.press())
        self.says = make(HTML, css="wb-says")
        self.box = make(VBox, [self.button, self.says], css="wb-offer")

    def press(self) -> None:
        """Give the page new values, or say why it has none."""
        try:
            self._renew()
        except (CheckerError, TaskError) as error:
            self.says.value = show_note(str(error))
        else:
            self.says.value = show_note(_FRESH)
