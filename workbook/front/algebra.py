"""The place to derive a molar mass: lines of working, typeset as they are typed."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, HTMLMath, Textarea

from workbook.errors import RelationError
from workbook.front.entry import Entry, label_answer
from workbook.front.typeset import show_math, show_plain
from workbook.front.widget import make
from workbook.relation.latex import to_latex
from workbook.relation.reader import read_line
from workbook.wire.answer import Answer, Derived

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import AlgebraStep

_POINTED = '<em class="wb-point">stops following here</em>'


class AlgebraPad:
    """
    What is known, a text area with one equation a line, and a box for the result.

    Parameters
    ----------
    step : AlgebraStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: AlgebraStep, bell: Bell) -> None:
        self._bell = bell
        self._pointed: int | None = None
        self.start = make(HTML, show_start(step))
        self.area = make(
            Textarea,
            description="Your working, one equation a line",
            rows=4,
            css="wb-entry",
        )
        self.area.observe(lambda _: self._change(), names="value")
        self.typeset = make(HTMLMath)
        self.entry = Entry(label_answer(step.unit), bell)

    @property
    def body(self) -> tuple[Widget, ...]:
        """What is known, the text area, its lines typeset, and the box."""
        return (self.start, self.area, self.typeset, self.entry.box)

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines of working as typed, blank ones left out."""
        lines = (line.strip() for line in str(self.area.value).splitlines())
        return tuple(line for line in lines if line)

    def read(self) -> Derived:
        """
        Return the working and the result that is typed.

        Returns
        -------
        Derived
            As it was typed.
        """
        return Derived(self.lines, self.entry.text)

    def write(self, answer: Answer) -> None:
        """
        Put earlier working back.

        Parameters
        ----------
        answer : Answer
            Working; any other kind is left out.
        """
        if isinstance(answer, Derived):
            self.area.value = "\n".join(answer.lines)
            self.entry.text = answer.text

    def point(self, at: int | None) -> None:
        """
        Mark the line that stopped following.

        Parameters
        ----------
        at : int or None
            Index among the lines that are not blank; None takes the mark away.
        """
        self._pointed = at
        self._show()

    def _change(self) -> None:
        self._show()
        self._bell.change()

    def _show(self) -> None:
        shown = show_lines(self.lines, self._pointed)
        if self.typeset.value != shown:
            self.typeset.value = shown


def show_start(step: AlgebraStep) -> str:
    """
    Return HTML of what an algebra step starts from.

    Parameters
    ----------
    step : AlgebraStep
        As it stands on the sheet.

    Returns
    -------
    str
        What is known, and what each letter means.
    """
    known = "".join(f"<li>{escape(fact)}</li>" for fact in step.known)
    letters = "".join(
        f"<dt>{escape(letter.symbol)}</dt><dd>{escape(letter.means)}</dd>"
        for letter in step.letters
    )
    wanted = f"Letters, of which <code>{escape(step.wanted)}</code> is wanted"
    return (
        f'<div class="wb-start"><p class="wb-note">Known</p><ul>{known}</ul>'
        f'<p class="wb-note">{wanted}</p><dl>{letters}</dl></div>'
    )


def show_lines(lines: Sequence[str], pointed: int | None) -> str:
    """
    Return HTML of each line of working, typeset, or with what is wrong with it.

    Parameters
    ----------
    lines : sequence of str
        As typed, blank ones left out.
    pointed : int or None
        Index of the line that stopped following.

    Returns
    -------
    str
        A numbered list; empty when nothing is typed.
    """
    if not lines:
        return ""
    items = (
        _show_line(line, is_pointed=at == pointed) for at, line in enumerate(lines)
    )
    return f'<ol class="wb-lines">{"".join(items)}</ol>'


def _show_line(line: str, *, is_pointed: bool) -> str:
    remark = f" {_POINTED}" if is_pointed else ""
    mark = ' class="wb-pointed"' if is_pointed else ""
    try:
        shown = show_math(to_latex(read_line(line)), line)
    except RelationError as error:
        shown = f'<span class="wb-unread">{show_plain(str(error))}</span>'
    return f"<li{mark}>{shown}{remark}</li>"
