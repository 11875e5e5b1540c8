"""
Which answer of each step stands: the latest that was really an attempt.

Of a prediction it is the first: a step that is committed takes no other answer. A
reading of the student's own that is noted gives way to one that has a reason.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.wire.answer import Noted
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.client.record import Record
    from workbook.wire.answer import Answer
    from workbook.wire.verdict import Verdict

#: Outcomes of a step that is done.
_DONE = frozenset(
    {
        Outcome.RIGHT,
        Outcome.FOLLOWS,
        Outcome.COMMITTED,
        Outcome.NOTED,
        Outcome.KEPT,
    }
)


class Standing:
    """
    The answers on which later steps rest.

    An attempt that waits for its verdict stands too; one that turned out to be no
    attempt, or that the checker does not take, leaves the one before it standing.

    Parameters
    ----------
    records : iterable of Record
        Of both parts of a sheet.
    """

    def __init__(self, records: Iterable[Record]) -> None:
        #: The standing answer of each step.
        self.answers: dict[str, Answer] = {}
        self._verdicts: dict[str, Verdict | None] = {}
        for record in records:
            for attempt in record.attempts:
                verdict = record.verdict(attempt.id)
                if record.refusal(attempt.id):
                    continue
                outcome = verdict.outcome if verdict else None
                if takes_place(self._outcome(attempt.step), attempt.answer, outcome):
                    self.answers[attempt.step] = attempt.answer
                    self._verdicts[attempt.step] = verdict

    def noted(self, step: str) -> Noted | None:
        """
        Return the student's own reading that is noted for a step.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        Noted or None
            None for any other kind of step, and before it is noted.
        """
        answer, verdict = self.answers.get(step), self.verdict(step)
        is_noted = verdict is not None and verdict.outcome is Outcome.NOTED
        return answer if is_noted and isinstance(answer, Noted) else None

    def _outcome(self, step: str) -> Outcome | None:
        verdict = self.verdict(step)
        return verdict.outcome if verdict else None

    def verdict(self, step: str) -> Verdict | None:
        """
        Return the verdict on a step's standing answer.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        Verdict or None
            None while it has no answer, or no verdict.
        """
        return self._verdicts.get(step)

    def is_right(self, step: str) -> bool:
        """
        Tell whether a step's standing answer was judged to hold.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        bool
            False while it has no answer, or no verdict.
        """
        verdict = self.verdict(step)
        return verdict is not None and verdict.outcome in _DONE

    def is_committed(self, step: str) -> bool:
        """
        Tell whether a step takes no other answer.

        Parameters
        ----------
        step : str
            The step's id.

        Returns
        -------
        bool
            True for a prediction that was made.
        """
        verdict = self.verdict(step)
        return verdict is not None and verdict.outcome is Outcome.COMMITTED


def takes_place(
    standing: Outcome | None, answer: Answer, outcome: Outcome | None
) -> bool:
    """
    Tell whether an answer takes the place of the one that stands before it.

    Parameters
    ----------
    standing : Outcome or None
        What was said of the one before; None where there is none, or no verdict yet.
    answer : Answer
        The later one.
    outcome : Outcome or None
        What was said of it; None while its verdict is awaited.

    Returns
    -------
    bool
        True for the latest that was really an attempt, or waits for its verdict; never
        after a prediction, and after a reading that is noted only with a reason.

    Examples
    --------
    >>> from workbook.wire.answer import Typed
    >>> takes_place(Outcome.WRONG, Typed("1 g"), Outcome.RIGHT)
    True
    >>> takes_place(Outcome.WRONG, Typed("?"), Outcome.UNREAD)
    False
    """
    if standing is Outcome.COMMITTED:
        return False
    if standing is Outcome.NOTED:
        has_reason = isinstance(answer, Noted) and bool(answer.reason.strip())
        return has_reason and outcome is not None and outcome not in NO_ATTEMPT
    return outcome not in NO_ATTEMPT
