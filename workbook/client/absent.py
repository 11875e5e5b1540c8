"""No checker at all: a student image that was told of no service."""

from __future__ import annotations

from importlib.util import find_spec
from typing import TYPE_CHECKING

from workbook.errors import CheckerRefusedError

if TYPE_CHECKING:
    from workbook.wire.message import Question, Statement

#: What a student image is built without.
_SOLVER = "workbook.solver"

#: For programs: nobody can be asked.
_ABSENT = "absent"

_NOBODY = (
    "No checker is named here, and this installation has none of its own. Start from "
    "your course's server, or put checker.json back beside the notebooks as it was "
    "issued."
)


class AbsentChecker:
    """Stands where a checker would, and says so whenever it is asked."""

    def ask(self, question: Question, *, task: str, limit_s: float) -> Statement:
        """
        Say that nobody can be asked.

        Parameters
        ----------
        question : Question
            Not looked at.
        task : str
            Not used.
        limit_s : float
            Not used: the answer is at once [s].

        Returns
        -------
        Statement
            Never.

        Raises
        ------
        CheckerRefusedError
            Always, with what to do.
        """
        del question, task, limit_s
        raise CheckerRefusedError(_ABSENT, _NOBODY)

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
