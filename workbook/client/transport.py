"""What every way to a checker has in common: one question, one statement."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from workbook.errors import CheckerAwayError, CheckerRefusedError
from workbook.wire.message import Refused

if TYPE_CHECKING:
    from workbook.wire.message import Question, Statement


#: How long a question may take [s].
LIMIT_S = 20.0


class Checker(Protocol):
    """A way to the solver that holds the relations and the hidden values."""

    #: How long a card waits for a verdict, and all others with it, before it says that
    #: there is none yet [s].
    patience_s: float

    def ask(self, question: Question, *, task: str, limit_s: float) -> Statement:
        """
        Put one question, and wait for its statement.

        Parameters
        ----------
        question : Question
            What is asked.
        task : str
            What it is for, in words that complete "asked to ...".
        limit_s : float
            How long to wait [s].

        Returns
        -------
        Statement
            Never a refusal: that is raised.

        Raises
        ------
        CheckerDiedError
            If the checker ended before it answered.
        CheckerSlowError
            If it did not answer in time.
        CheckerAwayError
            If it can't be reached.
        CheckerRefusedError
            If it answered, and said no.
        """

    def look(self) -> str:
        """
        Tell whether a question would reach the checker, without asking one.

        Returns
        -------
        str
            Why it would not, in words that complete "can't be reached: ..."; empty when
            it would.
        """

    def close(self) -> None:
        """Let go of the checker; whoever started a process ends it."""


def ask_in_reach(checker: Checker, question: Question, *, task: str) -> Statement:
    """
    Put a question that is not put again by itself, if it would reach the checker.

    Parameters
    ----------
    checker : Checker
        Who is asked.
    question : Question
        What is asked.
    task : str
        What it is for, in words that complete "asked to ...".

    Returns
    -------
    Statement
        Never a refusal: that is raised.

    Raises
    ------
    CheckerDiedError
        If the checker ended before it answered.
    CheckerSlowError
        If it did not answer in `LIMIT_S`.
    CheckerAwayError
        If it can't be reached; that is known at once.
    CheckerRefusedError
        If it answered, and said no.
    """
    if reason := checker.look():
        raise CheckerAwayError(task, reason)
    return checker.ask(question, task=task, limit_s=LIMIT_S)


def accept(statement: Statement) -> Statement:
    """
    Return a statement that is no refusal.

    Parameters
    ----------
    statement : Statement
        As it came from a checker.

    Returns
    -------
    Statement
        The same.

    Raises
    ------
    CheckerRefusedError
        If the statement is a refusal.

    Examples
    --------
    >>> from workbook.wire.message import Sealed
    >>> accept(Sealed("3f"))
    Sealed(seal='3f', at=None)
    """
    if isinstance(statement, Refused):
        raise CheckerRefusedError(statement.why.value, statement.reason)
    return statement
