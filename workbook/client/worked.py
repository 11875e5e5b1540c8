"""Asking for the worked answer of a step on a practice sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.client.transport import ask_in_reach
from workbook.errors import CheckerRefusedError
from workbook.wire.message import Explained, ExplainStep

if TYPE_CHECKING:
    from workbook.client.session import Session
    from workbook.wire.message import WorkedLine

#: For programs: the checker gave something else.
_NO_LINES = "no lines"


def is_tried(session: Session, step: str) -> bool:
    """
    Tell whether a step was really attempted, so that its answer may be shown.

    Parameters
    ----------
    session : Session
        Of the page.
    step : str
        The step's id.

    Returns
    -------
    bool
        False for every step of an issued sheet.

    Raises
    ------
    TaskError
        If a record can't be read.
    """
    return not session.is_issued and session.history.stand().verdict(step) is not None


def ask_worked(session: Session, step: str) -> tuple[WorkedLine, ...]:
    """
    Return the worked answer of a step that was tried.

    Parameters
    ----------
    session : Session
        On a practice sheet.
    step : str
        The step's id.

    Returns
    -------
    tuple of WorkedLine
        Top to bottom.

    Raises
    ------
    TaskError
        If a record can't be read.
    CheckerDiedError
        If the checker ended.
    CheckerSlowError
        If it did not answer in time.
    CheckerRefusedError
        If it shows none.
    """
    standing = session.history.stand().answers
    answer = standing.pop(step)
    question = ExplainStep(session.sheet.id, step, answer, standing)
    said = ask_in_reach(session.checker, question, task=f"explain {step!r}")
    if not isinstance(said, Explained):
        raise CheckerRefusedError(_NO_LINES, "The checker gave no worked answer.")
    return said.lines
