"""The place to answer a range: one box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.entry import Entry
from workbook.wire.answer import Answer, Typed

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import RangeStep


class RangePad:
    """
    One text box for both ends and their unit.

    Parameters
    ----------
    step : RangeStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: RangeStep, bell: Bell) -> None:
        label = f"Your range, from low to high, with its unit ({step.unit})"
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
