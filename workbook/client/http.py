"""
The checker as a service: one question is one request over a connection that is kept.

The standard library alone: a hub pays for every import of a kernel once per student.
"""

from __future__ import annotations

import socket
import ssl
import time
from http.client import (
    HTTPConnection,
    HTTPException,
    HTTPSConnection,
    RemoteDisconnected,
)
from typing import TYPE_CHECKING

import msgspec

from workbook.client.transport import accept
from workbook.errors import (
    CheckerAwayError,
    CheckerRefusedError,
    CheckerSlowError,
)
from workbook.wire.message import MESSAGE_VERSION, Request, Why, encode, read_reply

if TYPE_CHECKING:
    from http.client import HTTPResponse

    from workbook.client.way import Way
    from workbook.wire.message import Question, Statement

#: The most that a reply may hold [byte]; a sheet with its pictures has a tenth of it.
_MAX_REPLY = 16_000_000

#: How much of a reply is read before the clock is looked at [byte].
_PIECE = 65_536

#: How long a look whether the checker is there may take [s]: milliseconds, unless it is
#: far, where a new encrypted connection is four ways there and back.
_LOOK_S = 2.0

#: How long a card waits for a service [s]: three times as long as any of 500 students
#: did in the last minute before a deadline (tests/benchmarks/deadline.py, two cores).
#: What takes longer is not lost by it: it is sent again, under the same id.
PATIENCE_S = 4.0

#: The longest rest that a service can ask for [s].
_MAX_REST_S = 120.0

#: A connection that lay idle for longer is not used again [s].
_IDLE_S = 50.0

#: What the other end does to a connection that it no longer wants.
_DROPPED = (RemoteDisconnected, ConnectionResetError, BrokenPipeError)

#: RFC 9110, 15.5 and 15.6: what is said instead of a reply by what stands before a
#: service that is starting, stopping or overloaded.
_NOT_NOW = frozenset({408, 425, 429, 500, 502, 503, 504})

#: RFC 9110, 15.5.2 and 15.5.4.
_UNKNOWN_CALLER = frozenset({401, 403})

#: For programs: what came was no reply.
_UNREADABLE = "unreadable"


class HttpChecker:
    """
    A checker that is asked over HTTP.

    Several threads may ask at once: each takes a connection of its own, and leaves it
    for the next.

    Parameters
    ----------
    way : Way
        Where it is, and who asks.
    """

    patience_s = PATIENCE_S

    def __init__(self, way: Way) -> None:
        self._way = way
        self._idle: list[tuple[HTTPConnection, float]] = []
        self._number = 0
        self._rest_until = 0.0
        #: Whether the last question did not reach it: then one looks before one asks.
        self._is_away = False

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
        CheckerAwayError
            If it can't be reached, or says that it has no time now.
        CheckerSlowError
            If it did not answer in time.
        CheckerRefusedError
            If it said no, or what it said was no reply of this version.
        """
        deadline = time.monotonic() + limit_s
        if self._is_away and (reason := self.look()):
            raise CheckerAwayError(task, reason)
        self._is_away = True
        self._number += 1
        body = encode(Request(MESSAGE_VERSION, self._number, question))
        try:
            status, content = self._exchange("POST", "/ask", body, deadline)
        except TimeoutError as error:
            raise CheckerSlowError(task, limit_s) from error
        except (OSError, HTTPException) as error:
            raise CheckerAwayError(task, _explain(error)) from None
        statement = _read(status, content, task)
        self._is_away = False
        return accept(statement)

    def look(self) -> str:
        """
        Tell whether a question would reach the checker, without asking one.

        Returns
        -------
        str
            Why it would not, in words that complete "can't be reached: ..."; empty when
            it would.
        """
        if time.monotonic() < self._rest_until:
            return "it has asked to be left alone for a moment"
        try:
            deadline = time.monotonic() + _LOOK_S
            status, _ = self._exchange("GET", "/health", None, deadline)
        except TimeoutError:
            return "it does not answer"
        except (OSError, HTTPException) as error:
            return _explain(error)
        return "" if status < min(_NOT_NOW) else _say_status(status)

    def close(self) -> None:
        """Close the connections that are kept."""
        while self._idle:
            self._idle.pop()[0].close()

    def _exchange(
        self, method: str, place: str, body: bytes | None, deadline: float
    ) -> tuple[int, bytes]:
        """Send a request, anew if the other end had dropped the idle connection."""
        connection, is_used = self._take(_leave(deadline))
        try:
            try:
                self._send(connection, method, place, body)
                response = connection.getresponse()
            except _DROPPED:
                if not is_used:
                    raise
                connection.close()
                connection = self._connect(_leave(deadline))
                self._send(connection, method, place, body)
                response = connection.getresponse()
            content = _drain(response, connection, deadline)
        except BaseException:
            connection.close()
            raise
        self._note_rest(response)
        if not response.will_close:
            self._idle.append((connection, time.monotonic()))
        return response.status, content

    def _take(self, limit_s: float) -> tuple[HTTPConnection, bool]:
        """Return a connection, and whether it was used before."""
        while self._idle:
            connection, since = self._idle.pop()
            if connection.sock is not None and time.monotonic() - since < _IDLE_S:
                connection.sock.settimeout(limit_s)
                return connection, True
            connection.close()
        return self._connect(limit_s), False

    def _connect(self, limit_s: float) -> HTTPConnection:
        way = self._way
        # The library sets TCP_NODELAY: a small question does not wait for more.
        if way.is_encrypted:
            context = ssl.create_default_context()
            return HTTPSConnection(way.host, way.port, timeout=limit_s, context=context)
        return HTTPConnection(way.host, way.port, timeout=limit_s)

    def _send(
        self, connection: HTTPConnection, method: str, place: str, body: bytes | None
    ) -> None:
        headers = {"Authorization": f"Bearer {self._way.token}"}
        if body is not None:
            headers["Content-Type"] = "application/json"
        # A page of metrics or health has no business with who asks.
        connection.request(
            method, self._way.prefix + place, body, headers if body else {}
        )

    def _note_rest(self, response: HTTPResponse) -> None:
        """Remember how long the service wants to be left alone."""
        asked = response.getheader("Retry-After", "")
        if response.status in _NOT_NOW and asked.isascii() and asked.isdigit():
            rest_s = min(float(asked[:6]), _MAX_REST_S)
            self._rest_until = time.monotonic() + rest_s


def _drain(
    response: HTTPResponse, connection: HTTPConnection, deadline: float
) -> bytes:
    """Read a reply in pieces, none after the deadline."""
    pieces: list[bytes] = []
    size = 0
    while True:
        left_s = _leave(deadline)
        if connection.sock is not None:
            connection.sock.settimeout(left_s)
        piece = response.read1(_PIECE)
        if not piece:
            # The library leaves a reply open that was read in pieces.
            response.close()
            return b"".join(pieces)
        pieces.append(piece)
        size += len(piece)
        if size > _MAX_REPLY:
            msg = "its reply has no end"
            raise HTTPException(msg)


def _leave(deadline: float) -> float:
    """Return how much time is left [s]; none is an error, as it is to a socket."""
    left_s = deadline - time.monotonic()
    if left_s <= 0:
        raise TimeoutError
    return left_s


def _read(status: int, content: bytes, task: str) -> Statement:
    """Return what a reply states; whatever stands before a service may speak for it."""
    try:
        return read_reply(content).statement
    except (msgspec.DecodeError, UnicodeDecodeError):
        pass
    if status in _NOT_NOW:
        raise CheckerAwayError(task, _say_status(status))
    if status in _UNKNOWN_CALLER:
        raise CheckerRefusedError(Why.CALLER.value, _UNKNOWN)
    raise CheckerRefusedError(
        _UNREADABLE,
        f"What answers at the checker's address is no checker of this version (HTTP "
        f"status {status}).",
    )


_UNKNOWN = (
    "The checker does not know who asks. Fetch your folder again, or start your server "
    "anew."
)


def _say_status(status: int) -> str:
    return f"it has no time now (HTTP status {status})"


def _explain(error: Exception) -> str:
    """Say why there was no reply, in words that name no address and no token."""
    match error:
        case ConnectionRefusedError():
            said = "nothing answers at its address"
        case ssl.SSLCertVerificationError():
            said = f"its certificate is not good ({error.verify_message})"
        case socket.gaierror():
            said = "its address is not known"
        case HTTPException() if not isinstance(error, RemoteDisconnected):
            said = "what answers at its address does not speak HTTP as it should"
        case OSError(strerror=str(reason)) if not isinstance(error, ssl.SSLError):
            said = reason[:1].lower() + reason[1:]
        case _:
            said = "the connection broke off"
    return said
