"""The place to note a reading of the student's own bench, and to change it."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, HBox, VBox

from workbook.front.entry import Entry
from workbook.front.widget import make
from workbook.wire.answer import Answer, Noted

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import OwnStep


class OwnPad:
    """
    A box for the reading; once it is noted, a way to change it with a reason.

    Parameters
    ----------
    step : OwnStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be noted.
    """

    #: What the button says: a reading of one's own is not checked against another.
    deed = "Note this reading"

    def __init__(self, step: OwnStep, bell: Bell) -> None:
        self._bell = bell
        self._noted: Noted | None = None
        self.name = make(HTML, f'<p class="wb-note">{escape(step.instrument)}</p>')
        self.entry = Entry(f"Your own reading, with its unit ({step.unit})", bell)
        self.opener = make(Button, description="Change this reading")
        self.opener.on_click(lambda _: self.open())
        self.other = Entry(f"The reading as it should be ({step.unit})", bell)
        self.reason = Entry("Why it changes", bell)
        self.changer = make(Button, description="Change it, with this reason")
        self.changer.on_click(lambda _: bell.enter())
        self._buttons = make(HBox, css="wb-bench")
        self.change = make(VBox)

    @property
    def body(self) -> tuple[Widget, ...]:
        """The instrument, the box, and what changes a noted reading."""
        return (self.name, self.entry.box, self.change)

    @property
    def is_changing(self) -> bool:
        """Whether the boxes for a change are open."""
        return self.reason.box in self.change.children

    def open(self) -> None:
        """Open the boxes for a change."""
        self._open()
        self.other.box.focus()

    def read(self) -> Noted:
        """
        Return what is typed.

        Returns
        -------
        Noted
            The noted reading itself, as long as nothing is typed to change it.
        """
        if self._noted is None:
            return Noted(self.entry.text)
        other, reason = self.other.text, self.reason.text
        if not self.is_changing or not (other.strip() or reason.strip()):
            return self._noted
        return Noted(other, reason, self._noted.text)

    def write(self, answer: Answer) -> None:
        """
        Put an earlier text back.

        Parameters
        ----------
        answer : Answer
            A reading; any other kind is left out.
        """
        if not isinstance(answer, Noted):
            return
        if not answer.instead_of:
            self.entry.text = answer.text
            return
        self.entry.text = answer.instead_of
        self.other.text, self.reason.text = answer.text, answer.reason

    def fix(self, noted: Noted | None) -> None:
        """
        Show the reading that is noted, which a reason alone changes.

        Parameters
        ----------
        noted : Noted or None
            What stands; None leaves the box open.
        """
        if noted is None or noted == self._noted:
            return
        self._noted = noted
        self.entry.text = noted.text
        self.entry.box.disabled = True
        typed = self.other.text, self.reason.text
        if typed == (noted.text, noted.reason):
            self.other.text = self.reason.text = ""
        if self.other.text or self.reason.text:
            self._open()
        else:
            self._close()

    def _open(self) -> None:
        self._buttons.children = (self.changer,)
        self.change.children = (self.other.box, self.reason.box, self._buttons)

    def _close(self) -> None:
        said = "" if self._noted is None else show_change(self._noted)
        self._buttons.children = (self.opener,)
        self.change.children = (make(HTML, said), self._buttons)


def show_change(noted: Noted) -> str:
    """
    Return HTML of what a noted reading was before.

    Parameters
    ----------
    noted : Noted
        What stands.

    Returns
    -------
    str
        Escaped; empty for one that was never changed.
    """
    if not noted.instead_of:
        return ""
    return (
        f'<p class="wb-note">Before: {escape(noted.instead_of)}. Changed because: '
        f"{escape(noted.reason)}</p>"
    )
