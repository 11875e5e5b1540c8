"""No checker at all: a student image that was told of no service."""

from __future__ import annotations

from importlib.util import find_spec
from typing import TYPE_CHECKING

from workbook.client.transport import LIMIT_S
from workbook.errors import CheckerAwayError

if TYPE_CHECKING:
    from workbook.wire.message import Question, Statement

#: What a student image is built without.
_SOLVER = "workbook.solver"

#: Why nobody can be asked, and what to do.
_NOBODY = (
    "no checker is named here, and this installation has none of its own; start from "
    "your course's server, or put checker.json back beside the notebooks as it was "
    "issued"
)


class AbsentChecker:
    """Stands where a checker would, and says so whenever it is asked."""

    patience_s = LIMIT_S

    def ask(self, question: Question, *, task: str, limit_s: float) -> Statement:
        """
        Say that nobody can be asked.

        Parameters
        ----------
        question : Question
            Not looked at.
        task : str
            What it is for, in words that complete "asked to ...".
        limit_s : float
            Not used: the answer is at once [s].

        Returns
        -------
        Statement
            Never.

        Raises
        ------
        CheckerAwayError
            Always, with what to do.
        """
        del question, limit_s
        raise CheckerAwayError(task, _NOBODY)

    def look(self) -> str:
        """
        Tell why no question would reach a checker.

        Returns
        -------
        str
            In words that complete "can't be reached: ...".
        """
        return _NOBODY

    def close(self) -> None:
        """Do nothing: nothing was opened."""


def has_solver() -> bool:
    """
    Tell whether a solver can be started from this installation.

    Returns
    -------
    bool
        False in a student image.
    """
    return find_spec(_SOLVER) is not None
