"""The place to write a text that a person marks."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Textarea

from workbook.front.widget import make
from workbook.wire.answer import Answer, Typed

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import TextStep


class TextPad:
    """
    What to write about, and a text area.

    Parameters
    ----------
    step : TextStep
        As it stands on the sheet.
    bell : Bell
        Not rung: of a text not every key is written to the record, but what the page
        tells after a pause, or on leaving.
    """

    #: What the button says: a text is not checked.
    deed = "Keep this text"

    def __init__(self, step: TextStep, bell: Bell) -> None:
        del bell
        self.prompts = make(HTML, show_prompts(step.prompts))
        self.area = make(Textarea, description="Your text", rows=7, css="wb-entry")

    @property
    def body(self) -> tuple[Widget, ...]:
        """What to write about, and the text area."""
        return (self.prompts, self.area)

    def read(self) -> Typed:
        """
        Return what is written.

        Returns
        -------
        Typed
            As it was typed.
        """
        return Typed(str(self.area.value))

    def write(self, answer: Answer) -> None:
        """
        Put an earlier text back.

        Parameters
        ----------
        answer : Answer
            A text; any other kind is left out.
        """
        if isinstance(answer, Typed):
            self.area.value = answer.text


def show_prompts(prompts: tuple[str, ...]) -> str:
    """
    Return HTML of what a text is to be about.

    Parameters
    ----------
    prompts : tuple of str
        A line each.

    Returns
    -------
    str
        A list; empty when there are none.
    """
    items = "".join(f"<li>{escape(prompt)}</li>" for prompt in prompts)
    return f'<ul class="wb-prompts">{items}</ul>' if items else ""
