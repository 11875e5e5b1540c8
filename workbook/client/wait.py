"""What is said of answers that wait for their verdicts, and when they need not."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from workbook.client.delay import Delay

if TYPE_CHECKING:
    from datetime import datetime

#: An attempt that has failed so often goes last.
_TOO_OFTEN = 2

#: What becomes of an answer that has no verdict.
_KEPT = {
    Delay.MOMENT: "Your answer is kept, and will be sent again.",
    Delay.MENDED: (
        "Your answer is kept. When that is put right, run this notebook again, and it "
        "is sent."
    ),
    Delay.EVER: "Your answer stays in your record, and is not sent again.",
}


class Wait:
    """The attempts that were put off since the notebook was opened."""

    def __init__(self) -> None:
        self._failures: Counter[str] = Counter()
        self._reasons: dict[str, str] = {}
        self._ended: dict[str, str] = {}

    def put_off(self, attempt_id: str, reason: str) -> None:
        """
        Remember why an attempt waits.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.
        reason : str
            Whole sentences.
        """
        self._reasons[attempt_id] = reason

    def fail(self, attempt_id: str) -> None:
        """
        Count a failure that may lie in the attempt itself.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.
        """
        self._failures[attempt_id] += 1

    def is_hard(self, attempt_id: str) -> bool:
        """
        Tell whether an attempt has failed too often to go first.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.

        Returns
        -------
        bool
            True from the second failure on.
        """
        return self._failures[attempt_id] >= _TOO_OFTEN

    def end(self, attempt_id: str, at: datetime, *, was_sent_again: bool) -> None:
        """
        Take in that an attempt has its verdict.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.
        at : datetime
            When it came, with its time zone.
        was_sent_again : bool
            True where nobody had just pressed a button for it.
        """
        was_put_off = self._reasons.pop(attempt_id, "")
        if was_put_off or was_sent_again:
            time = at.astimezone().strftime("%H:%M %Z")
            self._ended[attempt_id] = f"Sent and judged at {time}."

    def explain(self, attempt_id: str) -> str:
        """
        Return why an attempt waits.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.

        Returns
        -------
        str
            Whole sentences.
        """
        said = self._reasons.get(attempt_id)
        return said or say_kept("No verdict has come yet.")

    def tell_end(self, attempt_id: str) -> str:
        """
        Return when an attempt that had to wait got its verdict.

        Parameters
        ----------
        attempt_id : str
            `Attempt.id`.

        Returns
        -------
        str
            A sentence; empty for one that did not have to wait.
        """
        return self._ended.get(attempt_id, "")


def say_kept(reason: str, delay: Delay = Delay.MOMENT) -> str:
    """
    Return why an answer is not judged, and what becomes of it.

    Parameters
    ----------
    reason : str
        A sentence.
    delay : Delay
        How long it waits.

    Returns
    -------
    str
        Whole sentences.

    Examples
    --------
    >>> say_kept("The checker is away.")
    'The checker is away. Your answer is kept, and will be sent again.'
    """
    return f"{reason} {_KEPT[delay]}"
