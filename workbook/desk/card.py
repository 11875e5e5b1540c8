"""A card of the desk: a heading, what stands under it, and the place of an answer."""

from __future__ import annotations

from html import escape
from importlib.resources import files
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, VBox

from workbook.front.display import bundle
from workbook.front.saying import show_note

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ipywidgets import Widget

    from workbook.front.look import Look

_STYLE = (files("workbook.desk") / "desk.css").read_text(encoding="utf-8")


class DeskCard:
    """
    A card of the desk.

    Parameters
    ----------
    look : Look
        The page's style and manners.
    name : str
        Unique on the page.
    title : str
        What stands over it.
    note : str
        What it is for.
    """

    def __init__(self, look: Look, name: str, title: str, note: str) -> None:
        self._name = name
        head = HTML(
            f"<style>{_STYLE}</style>"
            f'<h3 class="wb-asks" id="wb-{name}">{escape(title)}</h3>'
            f'<p class="wb-note">{escape(note)}</p>'
        )
        #: What came of the last press of a button; it is announced.
        self.says = HTML()
        self.says.add_class("wb-says")
        self._frame: tuple[Widget, ...] = (look, head)
        self.box = VBox(self._frame)
        self.box.add_class("wb-card")
        self.box.add_class("wb-desk")

    def lay(self, parts: Sequence[Widget]) -> None:
        """
        Put parts under the heading, and what is said under them.

        Parameters
        ----------
        parts : sequence of Widget
            From top to bottom.
        """
        self.box.children = (*self._frame, *parts, self.says)

    def say(self, sentence: str) -> None:
        """
        Say what came of something.

        Parameters
        ----------
        sentence : str
            Plain text.
        """
        self.says.value = show_note(sentence)

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, f"desk: {self._name}")


def make_button(
    label: str, deed: Callable[[], None], *, is_main: bool = False
) -> Button:
    """
    Return a button that does something.

    Parameters
    ----------
    label : str
        What stands on it.
    deed : callable
        What it does.
    is_main : bool
        True for the one that leads on.

    Returns
    -------
    Button
        In the style of the cards.
    """
    button = Button(description=label)
    if is_main:
        button.add_class("wb-check")
    button.on_click(lambda _: deed())
    return button
