"""The place of a reading that is not shown yet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML

from workbook.front.saying import show_note
from workbook.front.widget import make
from workbook.wire.answer import Answer, Typed

if TYPE_CHECKING:
    from ipywidgets import Widget

_HELD = (
    "This reading is shown once the questions that stand at the head of this page are "
    "right."
)


class HeldPad:
    """A sentence in the place of an instrument; nothing can be answered there."""

    def __init__(self) -> None:
        self.note = make(HTML, show_note(_HELD))

    @property
    def body(self) -> tuple[Widget, ...]:
        """The sentence."""
        return (self.note,)

    def read(self) -> Typed:
        """
        Return an empty text.

        Returns
        -------
        Typed
            Nothing can be typed here.
        """
        return Typed("")

    def write(self, answer: Answer) -> None:
        """
        Leave an answer aside: there is no place for it yet.

        Parameters
        ----------
        answer : Answer
            It stays in the record, and is shown with the reading.
        """
