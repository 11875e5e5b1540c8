"""Opening a page for the folder that a notebook lies in."""

from __future__ import annotations

import atexit
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING

from workbook.client.place import Part
from workbook.client.session import open_practice, open_session
from workbook.client.way import find_checker
from workbook.errors import TaskError, WorkbookError, nearest
from workbook.front.display import speak_plainly
from workbook.front.page import Page

if TYPE_CHECKING:
    from workbook.client.transport import Checker


def open_page(part: str, folder: str | Path | None) -> Page:
    """
    Return the page of one part of a folder's sheet.

    Parameters
    ----------
    part : str
        ``"prelab"`` or ``"postlab"``.
    folder : str or Path or None
        The student's folder; None for the one that the notebook lies in.

    Returns
    -------
    Page
        With everything that was kept in the folder.

    Raises
    ------
    TaskError
        If there is no such part, or the sheet or a record can't be read.
    CheckerError
        If a practice sheet is wanted, and the checker makes none.
    """
    place = (Path.cwd() if folder is None else Path(folder)).resolve()
    try:
        half, checker = _read_part(part), _start_checker(place)
        session = open_session(place, half, checker)
        return Page(session, partial(open_practice, half, checker), is_patient=True)
    except WorkbookError as error:
        raise speak_plainly(error) from None


@cache
def _start_checker(folder: Path) -> Checker:
    """Return the one checker of a folder, however often its page is opened."""
    checker = find_checker(folder)
    atexit.register(checker.close)
    return checker


def _read_part(part: str) -> Part:
    known = [each.value for each in Part]
    if part not in known:
        msg = f"A sheet has the parts {' and '.join(known)}, not {part!r}."
        raise TaskError(msg + nearest(part, known))
    return Part(part)
