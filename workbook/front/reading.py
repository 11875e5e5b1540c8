"""The place to answer a reading: the instrument as it shows, and one box."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML

from workbook.front.entry import Entry
from workbook.wire.answer import Answer, Typed

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import ReadingStep


class ReadingPad:
    """
    The instrument, what is seen on it, and a text box for the reading.

    Parameters
    ----------
    step : ReadingStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: ReadingStep, bell: Bell) -> None:
        self.face = HTML(
            '<div class="wb-instrument">'
            f'<p class="wb-note">{escape(step.instrument)}</p>'
            f'<p class="wb-seen">{escape(step.seen)}</p></div>'
        )
        self.entry = Entry(f"Your reading, with its unit ({step.unit})", bell)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The instrument, and the box."""
        return (self.face, self.entry.box)

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
