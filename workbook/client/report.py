"""Keeping a student's lab report in their folder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.client.place import Paper, name_papers
from workbook.errors import TaskError
from workbook.store import write_new

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.sheet import SheetId


def save_report(report: str, sheet: SheetId, folder: Path) -> Path:
    """
    Write a lab report beside the earlier ones, and touch none of them.

    Parameters
    ----------
    report : str
        A whole HTML document.
    sheet : SheetId
        Whose and what it is.
    folder : Path
        Where to.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    TaskError
        If it can't be written; nothing is left behind.
    """
    names = name_papers(sheet, Paper.REPORT)
    try:
        return write_new(folder, names, report.encode())
    except OSError as error:
        msg = f"The report can't be written to this folder: {error.strerror}."
        raise TaskError(msg) from error
