"""The place to say beforehand what will be seen; the first answer stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.choice import OnePad

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.answer import Answer, Chosen
    from workbook.wire.sheet import PredictionStep


class PredictionPad:
    """
    Radio buttons that are closed once an answer was taken.

    Parameters
    ----------
    step : PredictionStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes.
    """

    #: What the button says: a prediction is not checked.
    deed = "Commit to this"

    def __init__(self, step: PredictionStep, bell: Bell) -> None:
        self.choice = OnePad(step.options, bell)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The radio buttons."""
        return self.choice.body

    def read(self) -> Chosen:
        """
        Return what is ticked.

        Returns
        -------
        Chosen
            One option, or none.
        """
        return self.choice.read()

    def write(self, answer: Answer) -> None:
        """
        Put an earlier tick back.

        Parameters
        ----------
        answer : Answer
            A choice; any other kind is left out.
        """
        self.choice.write(answer)

    def close(self, answer: Answer) -> None:
        """
        Show the answer that stands, and take no other.

        Parameters
        ----------
        answer : Answer
            What the student committed to.
        """
        if not self.choice.buttons.disabled:
            self.choice.buttons.disabled = True
            self.write(answer)
