"""
Making the widgets of a card, which look alike and so share what says how.

By itself every widget of ipywidgets comes with a layout and a style of its own, and
each of these is an object in the kernel, a message to the browser, and an object
there. On a page of cards they are two thirds of all; here all of one kind share one.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, TypeVar

from ipywidgets import Layout

if TYPE_CHECKING:
    from ipywidgets import Widget

Made = TypeVar("Made", bound="Widget")


def make(kind: type[Made], *values: object, css: str = "", **traits: object) -> Made:
    """
    Return a new widget with the layout and the style that others have too.

    Parameters
    ----------
    kind : type
        A widget of ipywidgets, or of our own, that is shown.
    *values : object
        What *kind* takes by position.
    css : str
        A class of our style sheet; empty for none.
    **traits : object
        What *kind* takes by name. A layout or style given here is taken instead.

    Returns
    -------
    Widget
        Never change its layout or style in place: change its class.
    """
    # Given at once, a class needs no second message; `add_class` would send one.
    classes = {"_dom_classes": (css,)} if css else {}
    made: Made = kind(*values, **(_share(kind) | classes | traits))
    return made


def begin_page() -> None:
    """
    Let what is made from now on share layouts and styles that are new.

    A browser that opens a notebook again knows nothing yet of what an earlier page of
    the same kernel made: a widget that rests on it would be waited for without end.
    """
    _lone.cache_clear()


def _share(kind: type[Widget]) -> dict[str, object]:
    """Return what all widgets of a kind have in common, by the names of its traits."""
    style = kind.class_traits().get("style")
    shared = {"layout": _lone(Layout)}
    return shared if style is None else shared | {"style": _lone(style.klass)}


@cache
def _lone(kind: type[Widget]) -> Widget:
    """Return the one layout, or the one style of its kind, of this page."""
    return kind()
