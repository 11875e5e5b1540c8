"""What every place to answer with one text has in common: the box, and its text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.entry import Entry
from workbook.wire.answer import Answer, Typed

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell


class BoxPad:
    """
    One text box.

    Parameters
    ----------
    label : str
        What is to be typed.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, label: str, bell: Bell) -> None:
        self.entry = Entry(label, bell)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The box."""
        return (self.entry.box,)

    def read(self) -> Typed:
        """
        Return what is typed.

        Returns
        -------
        Typed
            As it was typed.
        """
        return Typed(self.entry.text)

    def write(self, answer: Answer) -> None:
        """
        Put an earlier text back.

        Parameters
        ----------
        answer : Answer
            A text; any other kind is left out.
        """
        if isinstance(answer, Typed):
            self.entry.text = answer.text
