"""The frame of every page that is written for people: its style, and its safety."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from markupsafe import Markup

from workbook.issuing.template import open_templates
from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime


def say_time(at: datetime) -> str:
    """
    Return a time as a page tells it.

    Parameters
    ----------
    at : datetime
        With its time zone, in which it is told.

    Returns
    -------
    str
        To the minute.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> say_time(datetime(2026, 3, 2, 12, 5, tzinfo=UTC))
    '2 March 2026, 12:05 UTC'
    """
    return f"{at.day} {at:%B %Y, %H:%M} {at.tzname()}"


def begin_sentence(text: str) -> str:
    """
    Return a text as it stands at the beginning of a sentence.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        All but its first letter stays as it is: a unit keeps its capitals.

    Examples
    --------
    >>> begin_sentence("graduated cylinder, 25 mL")
    'Graduated cylinder, 25 mL'
    """
    return text[:1].upper() + text[1:]


#: Our own, and the only text that is let into a page as it stands.
_STYLE = Markup(  # noqa: S704 - a file of the package, no text of a person
    (files("workbook.front") / "paper.css").read_text(encoding="utf-8")
    + (files("workbook.report") / "page.css").read_text(encoding="utf-8")
)

_pages = open_templates("workbook.report")
_pages.filters["points"] = say_points
_pages.filters["time"] = say_time
_pages.filters["begin"] = begin_sentence
_pages.globals["style"] = _STYLE


def fill_page(name: str, content: Mapping[str, object]) -> bytes:
    """
    Return a page as the content of its file.

    Parameters
    ----------
    name : str
        Its template, beside this module.
    content : mapping of str to object
        What stands in it; every text is escaped unless it is markup already.

    Returns
    -------
    bytes
        HTML in UTF-8 that runs no script and loads nothing from anywhere.
    """
    return _pages.get_template(name).render(content).encode()
