"""
The head of a page: what is this student's own, and what must be told at once.

What everybody gets, the notebook itself says above it.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from workbook.wire.sheet import Sheet

_TITLE = "Your sheet"

_PRACTICE = (
    "This is a sheet for practice, with values of its own. It is not kept, and "
    "can't be handed in. Its key can be read on this computer by whoever looks: a "
    "demonstration is not an examination."
)


def show_head(sheet: Sheet, notices: Sequence[str], *, is_issued: bool) -> str:
    """
    Return HTML of what is the student's own on a sheet, and is no step.

    Parameters
    ----------
    sheet : Sheet
        What the student may see.
    notices : sequence of str
        What went wrong when the page was opened, in sentences.
    is_issued : bool
        False for a sheet for practice.

    Returns
    -------
    str
        Parts that are empty are left out.
    """
    told = [*notices, *([] if is_issued else [_PRACTICE])]
    givens = (f"{given.label}: {given.shown}" for given in sheet.givens)
    return "".join(
        (
            f'<h2 class="wb-asks" id="wb-head">{_TITLE}</h2>',
            "".join(f'<p class="wb-told">{escape(notice)}</p>' for notice in told),
            _list("Given to you", givens),
            _list("Conventions", sheet.rules),
        )
    )


def _list(title: str, items: Iterable[str]) -> str:
    rows = "".join(f"<li>{escape(item)}</li>" for item in items)
    return f"<h4>{title}</h4><ul>{rows}</ul>" if rows else ""
