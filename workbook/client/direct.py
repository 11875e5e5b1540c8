"""A checker in the same memory: for tests, where there is nothing to hide."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.client.transport import LIMIT_S, accept

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.wire.message import Question, Statement


class DirectChecker:
    """
    A checker that is a function.

    Parameters
    ----------
    answer : callable
        Takes a question and returns its statement.
    """

    patience_s = LIMIT_S

    def __init__(self, answer: Callable[[Question], Statement]) -> None:
        self._answer = answer

    def ask(self, question: Question, *, task: str, limit_s: float) -> Statement:
        """
        Call the function.

        Parameters
        ----------
        question : Question
            What is asked.
        task : str
            Not used: a function that fails shows its own error.
        limit_s : float
            Not used: a function is waited for [s].

        Returns
        -------
        Statement
            What the function gave.

        Raises
        ------
        CheckerRefusedError
            If the function gave a refusal.
        """
        del task, limit_s
        return accept(self._answer(question))

    def look(self) -> str:
        """
        Return that nothing stands in the way: a function is there.

        Returns
        -------
        str
            The empty text.
        """
        return ""

    def close(self) -> None:
        """Do nothing: no process was started."""
