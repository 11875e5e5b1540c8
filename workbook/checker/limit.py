"""
What one student may send: so many attempts at a step, so much a day, so fast.

Attempts are counted where they are recorded, so that all processes and replicas count
the same. How fast a student sends is counted by each process for itself.
"""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from datetime import timedelta
from typing import TYPE_CHECKING

from workbook.errors import CheckerRefusedError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable
    from datetime import datetime

    from workbook.checker.tried import Try

#: How many answers to one step, and hand-ins of one sheet, a day takes [-]: no person
#: comes near it, and no machine fills the disk.
MOST_A_DAY = 200

#: So many questions may come at once [-], as when a notebook sends again what waited.
BURST = 120

#: So many questions go on coming [1/s].
RATE_PER_S = 2.0

#: How many callers are remembered [-]; who was silent longest is forgotten first.
_MOST_CALLERS = 10_000

_DAY = timedelta(days=1)

_NO_MORE = "This step takes {most} attempts, and they are used up."
_TOO_MANY = "Too much was sent within a day; it can be sent again tomorrow."


def check_limit(tries: Iterable[Try], new: Try, most: int) -> None:
    """
    Refuse an attempt at a step that takes no further one.

    Parameters
    ----------
    tries : iterable of Try
        What was tried on the sheet.
    new : Try
        What is asked about; it may be among them.
    most : int
        How many attempts the step takes; 0 for any number [-].

    Raises
    ------
    CheckerRefusedError
        If as many other answers were attempts already.

    Notes
    -----
    An answer that is given again is no further attempt, here as in marking. One that
    waits for its verdict counts until it turns out to be none.
    """
    if not most:
        return
    others = {t.content for t in tries if t.step == new.step and t.counts}
    if len(others - {new.content}) >= most:
        raise CheckerRefusedError(Why.ATTEMPTS.value, _NO_MORE.format(most=most))


def check_day(times: Iterable[datetime], now: datetime) -> None:
    """
    Refuse what no person sends in a day.

    Parameters
    ----------
    times : iterable of datetime
        When the like of it was received.
    now : datetime
        When this one was.

    Raises
    ------
    CheckerRefusedError
        If the day before it has `MOST_A_DAY` already.
    """
    if sum(now - at < _DAY for at in times) >= MOST_A_DAY:
        raise CheckerRefusedError(Why.RATE.value, _TOO_MANY)


class Pace:
    """
    How fast each caller may go on: a burst, then a steady rate.

    Parameters
    ----------
    clock : callable
        Gives the time [s].
    burst : int
        So many may come at once [-].
    rate_per_s : float
        So many go on coming [1/s].
    """

    def __init__(
        self,
        clock: Callable[[], float] = time.monotonic,
        burst: int = BURST,
        rate_per_s: float = RATE_PER_S,
    ) -> None:
        self._clock = clock
        self._burst = float(burst)
        self._rate_per_s = rate_per_s
        #: What is left of each caller's burst, and since when [-, s].
        self._left: OrderedDict[Hashable, tuple[float, float]] = OrderedDict()
        self._turn = threading.Lock()

    def spend(self, caller: Hashable) -> float:
        """
        Count a question, and tell how long its caller has to wait.

        Parameters
        ----------
        caller : hashable
            Who asks.

        Returns
        -------
        float
            0 where the question may be answered; else it is not counted [s].
        """
        now = self._clock()
        with self._turn:
            left, wait_s = self._look(caller, now)
            self._left[caller] = (left if wait_s else left - 1, now)
            self._left.move_to_end(caller)
            if len(self._left) > _MOST_CALLERS:
                self._left.popitem(last=False)
        return wait_s

    def tell_wait(self, caller: Hashable) -> float:
        """
        Tell how long a caller would have to wait, and count nothing.

        Parameters
        ----------
        caller : hashable
            Who would ask.

        Returns
        -------
        float
            0 where a question would be answered [s].
        """
        with self._turn:
            return self._look(caller, self._clock())[1]

    def _look(self, caller: Hashable, now: float) -> tuple[float, float]:
        """Return what is left of a caller's burst, and how long they have to wait."""
        left, since = self._left.get(caller, (self._burst, now))
        left = min(self._burst, left + (now - since) * self._rate_per_s)
        return left, max(0.0, (1 - left) / self._rate_per_s)
