"""How long an answer waits that could not be judged."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from workbook.errors import CheckerRefusedError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from workbook.errors import CheckerError


class Delay(Enum):
    """Until when it makes no sense to send an answer again."""

    #: For a moment: the checker is away, slow, or at work on its own files.
    MOMENT = "moment"
    #: Until a person has put something right that concerns every answer.
    MENDED = "mended"
    #: For good: this one answer is not taken.
    EVER = "ever"


_FOR_GOOD = frozenset({Why.REQUEST, Why.STEP, Why.SIZE, Why.REPLAY, Why.ATTEMPTS})

_UNTIL_MENDED = frozenset(
    {
        *(Why.VERSION, Why.CALLER, Why.COURSE, Why.REVISION, Why.STUDENT),
        *(Why.PRACTICE, Why.ATTEMPT),
    }
)

_FOR_GOOD_CODES = frozenset(why.value for why in _FOR_GOOD)
_UNTIL_MENDED_CODES = frozenset(why.value for why in _UNTIL_MENDED)


def find_delay(error: CheckerError) -> Delay:
    """
    Return how long an answer waits after an error.

    Parameters
    ----------
    error : CheckerError
        What came of sending it.

    Returns
    -------
    Delay
        A moment for whatever is not known to last.

    Examples
    --------
    >>> from workbook.errors import CheckerSlowError
    >>> find_delay(CheckerSlowError("judge", 20.0))
    <Delay.MOMENT: 'moment'>
    >>> find_delay(CheckerRefusedError("step", "There is no such step."))
    <Delay.EVER: 'ever'>
    """
    code = error.code if isinstance(error, CheckerRefusedError) else ""
    if code in _FOR_GOOD_CODES:
        return Delay.EVER
    return Delay.MENDED if code in _UNTIL_MENDED_CODES else Delay.MOMENT
