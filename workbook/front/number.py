"""The place to answer a number: one box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.entry import Entry, label_answer
from workbook.wire.answer import Answer, Typed

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import NumberStep


class NumberPad:
    """
    One text box; unit and figures are typed with the number.

    Parameters
    ----------
    step : NumberStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: NumberStep, bell: Bell) -> None:
        self.entry = Entry(label_answer(step.unit), bell)

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
