"""
The lab workbook: pre-lab and post-lab notebooks with values for each student.

A notebook needs `open_sheet` only. Importing the package loads no pandas, no
SymPy and nothing of the key side.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.front.page import Page

__all__ = ["open_sheet"]


def open_sheet(part: str = "postlab", folder: str | Path | None = None) -> Page:
    """
    Open one part of the sheet that lies beside the notebook.

    Parameters
    ----------
    part : str
        ``"prelab"`` or ``"postlab"``.
    folder : str or Path or None
        The student's folder; None for the one that the notebook lies in.

    Returns
    -------
    Page
        Its `card` gives the card of a step, its `hand_in` and `report` the last two.

    Raises
    ------
    TaskError
        If there is no such part, or the sheet or a record can't be read.
    CheckerError
        If a practice sheet is wanted, and the checker makes none.
    """
    # Here, so that the solver and the commands load no widgets.
    from workbook.front.opening import open_page  # noqa: PLC0415

    return open_page(part, folder)
