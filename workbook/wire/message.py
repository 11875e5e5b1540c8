"""
The conversation between a notebook and a checker: one request, one reply.

Both are JSON, one message a line, and carry the version of this form and the
number of the request. A version that is not known is refused by name.
"""

from __future__ import annotations

from datetime import datetime
from enum import Enum
from typing import TypeAlias

import msgspec
from msgspec import Struct

from workbook.wire.answer import Answer
from workbook.wire.sheet import Sheet, SheetId, Sight
from workbook.wire.verdict import Verdict

#: The version that this package speaks.
MESSAGE_VERSION = 2


class OpenSheet(Struct, frozen=True, forbid_unknown_fields=True, tag="open"):
    """Ask for a sheet: the named one, or a fresh one for practice."""

    #: None asks for a practice sheet with values of its own.
    sheet: SheetId | None = None


class JudgeAttempt(Struct, frozen=True, forbid_unknown_fields=True, tag="judge"):
    """Ask for the verdict on one answer."""

    sheet: SheetId
    step: str
    answer: Answer
    #: The student's standing answers to the other steps, by step. A service goes by its
    #: own record instead.
    standing: dict[str, Answer] = {}
    #: `Attempt.id`, by which a service tells a question that is put again from another
    #: attempt. A checker without a record does not look at it.
    attempt: str = ""


class SealHandIn(Struct, frozen=True, forbid_unknown_fields=True, tag="seal"):
    """Ask for the seal of a hand-in."""

    sheet: SheetId
    #: SHA-256 of the hand-in's content, in hexadecimal.
    digest: str


class PassGate(Struct, frozen=True, forbid_unknown_fields=True, tag="pass"):
    """Ask for the readings that are shown once the gate before the lab is passed."""

    sheet: SheetId
    #: The student's standing answers, by step; each is judged anew. A service goes by
    #: its own record instead.
    standing: dict[str, Answer] = {}


class ExplainStep(Struct, frozen=True, forbid_unknown_fields=True, tag="explain"):
    """Ask for the worked answer of a step of a practice sheet."""

    sheet: SheetId
    step: str
    #: What the student answered: nothing is explained before an attempt.
    answer: Answer
    #: The student's standing answers to the other steps, by step: their own readings.
    standing: dict[str, Answer] = {}


Question: TypeAlias = OpenSheet | JudgeAttempt | SealHandIn | PassGate | ExplainStep


class Opened(Struct, frozen=True, forbid_unknown_fields=True, tag="opened"):
    """The sheet that was asked for."""

    sheet: Sheet


class Judged(Struct, frozen=True, forbid_unknown_fields=True, tag="judged"):
    """The verdict that was asked for."""

    verdict: Verdict


class Sealed(Struct, frozen=True, forbid_unknown_fields=True, tag="sealed"):
    """The seal that was asked for: only the holder of the course key can make it."""

    seal: str
    #: When a service took the hand-in, by its own clock; None from one without record.
    at: datetime | None = None


class Passed(Struct, frozen=True, forbid_unknown_fields=True, tag="passed"):
    """The gate is passed: what the instruments after the lab show."""

    sights: tuple[Sight, ...]


class Held(Struct, frozen=True, forbid_unknown_fields=True, tag="held"):
    """The gate is not passed yet."""

    #: The steps that are not right yet, in the order of the sheet.
    missing: tuple[str, ...]


class WorkedLine(Struct, frozen=True, forbid_unknown_fields=True):
    """One line of a worked answer."""

    #: LaTeX without dollar signs; empty for a line that is words alone.
    latex: str
    #: The same in words.
    words: str


class Explained(Struct, frozen=True, forbid_unknown_fields=True, tag="explained"):
    """The worked answer of a step; only a practice sheet's is ever given."""

    lines: tuple[WorkedLine, ...]


class Why(Enum):
    """Why a checker refuses."""

    #: The line is not a request.
    REQUEST = "request"
    #: The request is of a version that the checker does not speak.
    VERSION = "version"
    #: The checker found no lab to serve.
    SOURCE = "source"
    #: The sheet is of another course, or of a lab that is not here.
    COURSE = "course"
    #: The sheet is of another revision of its lab.
    REVISION = "revision"
    #: The student is not on the roster.
    STUDENT = "student"
    #: The sheet has no such step.
    STEP = "step"
    #: Practice is not served here.
    PRACTICE = "practice"
    #: There was no attempt yet.
    ATTEMPT = "attempt"
    #: The lab file has a mistake, or a student can't be given values.
    LAB = "lab"
    #: Who asks is not known, or asks for what is another's.
    CALLER = "caller"
    #: Too many questions in a short time; it can be put again after a while.
    RATE = "rate"
    #: The step takes no further attempt.
    ATTEMPTS = "attempts"
    #: The question is too long.
    SIZE = "size"
    #: The id of the attempt belongs to another answer.
    REPLAY = "replay"
    #: The service can't keep an attempt at the moment; it can be put again.
    AWAY = "away"


class Refused(Struct, frozen=True, forbid_unknown_fields=True, tag="refused"):
    """The checker will not answer: *why* is for programs, *reason* for people."""

    why: Why
    reason: str


Statement: TypeAlias = Opened | Judged | Sealed | Passed | Held | Explained | Refused


class Head(Struct, frozen=True):
    """What every message of every version starts from; the rest is left aside."""

    version: int
    number: int


class Request(Struct, frozen=True, forbid_unknown_fields=True):
    """One line from a notebook to a checker."""

    version: int
    #: Chosen by the sender; the reply repeats it.
    number: int
    question: Question


class Reply(Struct, frozen=True, forbid_unknown_fields=True):
    """One line from a checker to a notebook."""

    version: int
    number: int
    statement: Statement


_head = msgspec.json.Decoder(Head)
_request = msgspec.json.Decoder(Request)
_reply = msgspec.json.Decoder(Reply)


def encode(message: Request | Reply) -> bytes:
    """
    Return a message as one line of JSON, line end included.

    Parameters
    ----------
    message : Request or Reply
        What is to be sent.

    Returns
    -------
    bytes
        UTF-8; no line end but the last.
    """
    return msgspec.json.encode(message) + b"\n"


def read_head(line: bytes) -> Head:
    """
    Return the version and number of a message of any version.

    Parameters
    ----------
    line : bytes
        One line of JSON.

    Returns
    -------
    Head
        Enough to refuse by name what can't be read whole.

    Raises
    ------
    msgspec.DecodeError
        If the line is not JSON, or has no version and number.
    """
    return _head.decode(line)


def read_request(line: bytes) -> Request:
    """
    Return the request in a line.

    Parameters
    ----------
    line : bytes
        One line of JSON.

    Returns
    -------
    Request
        With every field of the declared type.

    Raises
    ------
    msgspec.DecodeError
        If the line is not JSON, or not a request.
    """
    return _request.decode(line)


def read_reply(line: bytes) -> Reply:
    """
    Return the reply in a line.

    Parameters
    ----------
    line : bytes
        One line of JSON.

    Returns
    -------
    Reply
        With every field of the declared type.

    Raises
    ------
    msgspec.DecodeError
        If the line is not JSON, or not a reply.
    """
    return _reply.decode(line)
