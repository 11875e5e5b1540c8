"""One question as it came over HTTP, and what goes back; no server in it."""

from __future__ import annotations

import math
import re
import threading
import time
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from workbook.checker.limit import Pace
from workbook.checker.log import tell, tell_fault
from workbook.checker.metric import count_answer, count_open
from workbook.errors import CheckerRefusedError
from workbook.solver.desk import refuse
from workbook.solver.reply import reply_to
from workbook.wire.message import MESSAGE_VERSION, Refused, Reply, Why

if TYPE_CHECKING:
    from workbook.checker.caller import Caller, Porter
    from workbook.checker.counter import Counter
    from workbook.wire.message import Question, Statement

#: The longest question that is read [byte].
MOST_BYTES = 256 * 1024

#: How many questions may wait in one process [-]; the next is asked to come again.
MOST_WAITING = 512

#: The header by RFC 6750, section 2.1.
_BEARER = re.compile(r"Bearer ([A-Za-z0-9._~+/-]+=*)", re.IGNORECASE)

_STATUS = {
    Why.CALLER: 403,
    Why.SIZE: 413,
    Why.REQUEST: 422,
    Why.VERSION: 422,
    Why.REPLAY: 422,
    Why.RATE: 429,
    Why.AWAY: 503,
}

#: When to come again, where nothing better is known [s].
_AGAIN_S = {Why.RATE: 3600, Why.AWAY: 3}

_NAMELESS = "The question says nothing of who asks."
_TOO_FAST = "Too many questions at once; wait {wait_s} s."
_STOPPING = "The checker is being restarted."
_BUSY = "The checker has too much to do at the moment."
_FAULT = (
    "The checker made a mistake, and can't judge. Your answers are kept. Tell your "
    "instructor."
)


@dataclass(frozen=True, slots=True)
class Said:
    """What goes back."""

    #: Of HTTP.
    status: int
    reply: Reply
    #: When to come again; 0 where that would change nothing [s].
    again_s: int = 0


@dataclass(slots=True)
class _Asked:
    """What is known of a question by the time it is answered."""

    address: str
    caller: Caller | None = None
    kind: str = "none"
    lab: str = ""


class Exchange:
    """
    Takes what came over HTTP, and gives what goes back.

    Parameters
    ----------
    porter : Porter
        Knows who asks.
    counter : Counter
        Knows the answers.
    """

    def __init__(self, porter: Porter, counter: Counter) -> None:
        self._porter = porter
        self._counter = counter
        self._pace = Pace()
        self._open = 0
        self._turn = threading.Lock()
        #: True once nothing new is begun.
        self.is_stopping = False

    def enter(self) -> Said | None:
        """
        Count a question that came, unless it can't be taken now.

        Returns
        -------
        Said or None
            The refusal; else None, and `leave` has to follow.
        """
        if self.is_stopping:
            return refuse_because(Why.AWAY, _STOPPING)
        with self._turn:
            if self._open >= MOST_WAITING:
                return refuse_because(Why.AWAY, _BUSY)
            self._open += 1
        count_open(1)
        return None

    def leave(self) -> None:
        """Count a question that was answered."""
        with self._turn:
            self._open -= 1
        count_open(-1)

    def reply(self, header: str, body: bytes, address: str = "") -> Said:
        """
        Return what goes back for one question.

        Parameters
        ----------
        header : str
            The value of the header Authorization; empty where there is none.
        body : bytes
            As it came.
        address : str
            Where from.

        Returns
        -------
        Said
            Whatever went wrong.
        """
        began_s = time.perf_counter()
        asked = _Asked(address)
        try:
            said = self._reply(header, body, asked)
        except CheckerRefusedError as error:
            said = _dress(Reply(MESSAGE_VERSION, 0, refuse(error)))
            if error.code == Why.CALLER.value:
                said = replace(said, status=401)
        except Exception as error:  # noqa: BLE001 - a fault must not end the service
            tell_fault(error)
            said = refuse_because(Why.LAB, _FAULT)
        _tell(asked, said, time.perf_counter() - began_s)
        return said

    def _reply(self, header: str, body: bytes, asked: _Asked) -> Said:
        found = _BEARER.fullmatch(header)
        if found is None:
            raise CheckerRefusedError(Why.CALLER.value, _NAMELESS)
        asked.caller = caller = self._porter.find(found[1], asked.address)
        wait_s = math.ceil(self._pace.spend((caller.course, caller.student)))
        if wait_s:
            return refuse_because(Why.RATE, _TOO_FAST.format(wait_s=wait_s), wait_s)

        def answer(question: Question) -> Statement:
            asked.kind = type(question).__name__
            if question.sheet is not None and caller.owns(question.sheet):
                asked.lab = question.sheet.lab
            return self._counter.answer(caller, question)

        return _dress(reply_to(answer, body))


def refuse_because(why: Why, reason: str, again_s: int = 0) -> Said:
    """
    Return a refusal of what was not read.

    Parameters
    ----------
    why : Why
        For programs.
    reason : str
        For people.
    again_s : int
        When to come again; 0 for what is usual [s].

    Returns
    -------
    Said
        With the status that belongs to it.
    """
    said = _dress(Reply(MESSAGE_VERSION, 0, Refused(why, reason)))
    return replace(said, again_s=again_s) if again_s else said


def _dress(reply: Reply) -> Said:
    """Give a reply the status that belongs to it."""
    if not isinstance(reply.statement, Refused):
        return Said(200, reply)
    why = reply.statement.why
    return Said(_STATUS.get(why, 200), reply, _AGAIN_S.get(why, 0))


def _tell(asked: _Asked, said: Said, took_s: float) -> None:
    """Count and log a question that was answered."""
    statement = said.reply.statement
    result = type(statement).__name__
    if isinstance(statement, Refused):
        result = statement.why.value
    count_answer(asked.kind, result, took_s)
    tell(
        "answered",
        kind=asked.kind,
        lab=asked.lab,
        student=asked.caller.student if asked.caller else "",
        result=result,
        took_ms=round(1000 * took_s, 1),
    )
