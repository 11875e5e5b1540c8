"""Showing an object that holds a widget, without being one."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ipywidgets import Widget

    from workbook.errors import WorkbookError


def bundle(widget: Widget, plain: str) -> dict[str, object]:
    """
    Return what a notebook shows of a widget, with a short text of our own.

    Parameters
    ----------
    widget : Widget
        What is shown where widgets can be.
    plain : str
        What stands in the notebook's file, the same at every run.

    Returns
    -------
    dict of str to object
        By media type.
    """
    # The protocol of IPython's display has an underscore, and is public.
    shown = widget._repr_mimebundle_()
    return {**shown, "text/plain": plain}


def speak_plainly(error: WorkbookError) -> WorkbookError:
    """
    Let a notebook show an error's sentence in place of a traceback.

    Parameters
    ----------
    error : WorkbookError
        About to be raised to a student.

    Returns
    -------
    WorkbookError
        The same.
    """
    # IPython asks an exception for this method, which only a notebook needs.
    setattr(error, "_render_traceback_", lambda: [str(error)])  # noqa: B010
    return error


def let_go(widgets: Iterable[Widget]) -> None:
    """
    Close widgets that are shown no more, and all that they hold.

    Parameters
    ----------
    widgets : iterable of Widget
        Their places in the page are gone.
    """
    for widget in widgets:
        let_go(getattr(widget, "children", ()))
        widget.close()
