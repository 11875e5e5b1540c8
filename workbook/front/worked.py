"""The worked answer under a practice card, once the step was tried."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import Button, HTMLMath, VBox

from workbook.client.worked import ask_worked, is_tried
from workbook.errors import CheckerError, TaskError
from workbook.front.saying import show_note
from workbook.front.typeset import show_math
from workbook.front.widget import make

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.client.session import Session
    from workbook.wire.message import WorkedLine


class WorkedPanel:
    """
    A button that shows the worked answer; it is there after an attempt.

    Parameters
    ----------
    step_id : str
        The step of the card.
    session : Session
        On a practice sheet, or nothing is ever shown.
    """

    def __init__(self, step_id: str, session: Session) -> None:
        self._step_id = step_id
        self._session = session
        self.button = make(Button, description="Show the worked answer")
        self.button.on_click(lambda _: self.show())
        self.lines = make(HTMLMath, css="wb-says")
        self.box = make(VBox, css="wb-offer")

    def offer(self) -> None:
        """Let the button be there if the step was tried."""
        if not self.box.children and is_tried(self._session, self._step_id):
            self.box.children = (self.button, self.lines)

    def show(self) -> None:
        """Show the worked answer, or why there is none."""
        try:
            self.lines.value = show_lines(ask_worked(self._session, self._step_id))
        except (CheckerError, TaskError) as error:
            self.lines.value = show_note(str(error))


def show_lines(lines: Sequence[WorkedLine]) -> str:
    """
    Return HTML of a worked answer.

    Parameters
    ----------
    lines : sequence of WorkedLine
        Top to bottom.

    Returns
    -------
    str
        A paragraph each; a wide one scrolls by itself.
    """
    body = "".join(f"<p>{_show_line(line)}</p>" for line in lines)
    return (
        '<div class="wb-wide" tabindex="0" role="group" aria-label="Worked answer">'
        f"{body}</div>"
    )


def _show_line(line: WorkedLine) -> str:
    if not line.latex:
        return escape(line.words)
    # In a line of text MathJax would set what is in a fraction small.
    return show_math(rf"\displaystyle {line.latex}", line.words)
