"""The style sheet and the manners of every card, carried by one unseen widget."""

from __future__ import annotations

from importlib.resources import files

from anywidget import AnyWidget

from workbook.front.widget import make

_HERE = files("workbook.front")


class Look(AnyWidget):
    """
    An unseen widget that brings ``style.css`` and ``look.js`` into the page.

    It stands first in every card, and the page has the style once however many
    cards show it. This is the one subclass of a widget here: it has no behaviour
    of its own, and anywidget takes both texts from the class.
    """

    _esm = (_HERE / "look.js").read_text(encoding="utf-8")
    _css = (_HERE / "style.css").read_text(encoding="utf-8")


def lay_look() -> Look:
    """
    Return the look for one page.

    Returns
    -------
    Look
        To be shared by all cards of the page.
    """
    return make(Look, css="wb-look")
