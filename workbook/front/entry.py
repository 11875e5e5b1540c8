"""A text box for an answer: what is typed is kept as it is typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import Text

from workbook.front.widget import make

if TYPE_CHECKING:
    from workbook.front.bell import Bell


class Entry:
    """
    One line of text with its label.

    Parameters
    ----------
    label : str
        Tied to the box, so that a screen reader says it.
    bell : Bell
        Rung at every change, and at Enter.
    """

    def __init__(self, label: str, bell: Bell) -> None:
        self._bell = bell
        self.box = make(Text, description=label, css="wb-entry")
        self.box.observe(lambda _: bell.change(), names="value")
        self.box.on_msg(self._hear)

    @property
    def text(self) -> str:
        """What stands in the box, as it was typed."""
        return str(self.box.value)

    @text.setter
    def text(self, text: str) -> None:
        self.box.value = text

    def _hear(self, _: object, content: dict[str, object], __: object) -> None:
        """React to what the browser tells of the box."""
        if content.get("event") == "submit":
            self._bell.enter()


def label_answer(unit: str) -> str:
    """
    Return the label of a box for an answer.

    Parameters
    ----------
    unit : str
        In which the answer is expected; empty for a pure number.

    Returns
    -------
    str
        In words.

    Examples
    --------
    >>> label_answer("g/mol")
    'Your result, with its unit (g/mol)'
    >>> label_answer("")
    'Your result'
    """
    return f"Your result, with its unit ({unit})" if unit else "Your result"
