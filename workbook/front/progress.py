"""How far a student has come: a line of words, and a line for each step."""

from __future__ import annotations

from ipywidgets import HTML

from workbook.front.display import bundle
from workbook.front.widget import make

#: Width and gap of the drawn line of one step [px].
_WIDTH, _GAP = 18, 8


class Progress:
    """How many steps of the part are done."""

    def __init__(self) -> None:
        self.line = make(HTML, css="wb-progress")

    def show(self, right: int, steps: int) -> None:
        """
        Say how far the student has come.

        Parameters
        ----------
        right : int
            How many steps are done [-].
        steps : int
            How many there are [-].
        """
        self.line.value = (
            f"{draw_steps(right, steps)} <span>{count(right, steps)}</span>"
        )

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.line, "progress")


def count(right: int, steps: int) -> str:
    """
    Return the progress in words.

    Parameters
    ----------
    right : int
        How many steps are done [-].
    steps : int
        How many there are [-].

    Returns
    -------
    str
        A phrase.

    Examples
    --------
    >>> count(3, 9)
    '3 of 9 steps done'
    """
    return f"{right} of {steps} steps done"


def draw_steps(right: int, steps: int) -> str:
    """
    Return a drawing of the progress: a double rule for each step that is done.

    Parameters
    ----------
    right : int
        How many steps are done [-].
    steps : int
        How many there are [-].

    Returns
    -------
    str
        Inline SVG, hidden from screen readers, which read the words beside it.
    """
    lines = []
    for at in range(steps):
        left = at * (_WIDTH + _GAP)
        lines.append(f"M{left} 6h{_WIDTH}" + (f"M{left} 11h{_WIDTH}" * (at < right)))
    width = max(steps * (_WIDTH + _GAP) - _GAP, 0)
    return (
        f'<svg class="wb-rules" viewBox="0 0 {width} 14" width="{width}" height="14" '
        f'aria-hidden="true" focusable="false"><path d="{"".join(lines)}"/></svg>'
    )
