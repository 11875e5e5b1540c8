"""The gate at the head of a page: what is missing before the readings are shown."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, VBox

from workbook.client.place import Part
from workbook.front.display import bundle
from workbook.front.saying import show_note
from workbook.front.widget import make

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from workbook.client.gate import Gate

_BEFORE = (
    "The readings after the lab are shown once these are right. You can answer each as "
    "often as you like."
)
_AFTER = (
    "The readings are not shown yet: these questions before the lab are not right. "
    "Answer them in the notebook for before the lab, then ask again."
)
_OPEN = "The readings are shown below."


class GatePanel:
    """
    What is missing, and a button that asks for the readings.

    Parameters
    ----------
    gate : Gate
        Of the page's session.
    part : Part
        Which half the page shows: before the lab there is nothing to ask for.
    on_open : callable
        Called when the readings have come.
    """

    def __init__(self, gate: Gate, part: Part, on_open: Callable[[], None]) -> None:
        self._gate = gate
        self._on_open = on_open
        self.says = make(HTML, css="wb-says")
        self.button = make(Button, description="Ask for the readings", css="wb-check")
        self.button.on_click(lambda _: self.ask())
        self.box = make(VBox)
        if not gate.is_shut:
            return
        if part is Part.PRELAB:
            self.says.value = list_questions(_BEFORE, gate.questions)
            self.box.children = (self.says,)
            return
        self.box.children = (self.says, self.button)
        self.ask()

    def ask(self) -> None:
        """Ask for the readings, and say what came of it."""
        self._gate.ask()
        told = show_note(self._gate.trouble)
        if self._gate.is_shut:
            self.says.value = list_questions(_AFTER, self._gate.missing) + told
            return
        self.says.value = show_note(_OPEN) + told
        self.box.children = (self.says,)
        self._on_open()

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, "gate")


def list_questions(sentence: str, questions: Sequence[str]) -> str:
    """
    Return HTML of questions under a sentence.

    Parameters
    ----------
    sentence : str
        Plain text.
    questions : sequence of str
        Plain texts.

    Returns
    -------
    str
        Escaped; empty when there is no question.
    """
    if not questions:
        return ""
    rows = "".join(f"<li>{escape(question)}</li>" for question in questions)
    return f'<p class="wb-told">{escape(sentence)}</p><ul>{rows}</ul>'
