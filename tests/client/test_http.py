"""The checker over HTTP."""

from __future__ import annotations

import socket
import time
from typing import TYPE_CHECKING

import pytest

from tests.support.service import TOKEN, Answer, answer_with, serve
from workbook.client.http import HttpChecker
from workbook.client.way import Way
from workbook.errors import (
    CheckerAwayError,
    CheckerError,
    CheckerRefusedError,
    CheckerSlowError,
)
from workbook.wire.message import OpenSheet, Refused, Sealed, SealHandIn, Statement, Why
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.support.service import Service
    from workbook.wire.message import Question

QUESTION = SealHandIn(SheetId("autumn", "cold-cream", 1, "s07"), "ab")


def judge(question: Question) -> Statement:
    if isinstance(question, OpenSheet):
        return Refused(Why.PRACTICE, "No practice here.")
    return Sealed("5ea1")


@pytest.fixture
def service() -> Iterator[Service]:
    with serve(answer_with(judge)) as started:
        yield started


@pytest.fixture
def checker(service: Service) -> Iterator[HttpChecker]:
    made = HttpChecker(service.way)
    yield made
    made.close()


def ask(checker: HttpChecker, limit_s: float = 5.0) -> Statement:
    return checker.ask(QUESTION, task="seal a hand-in", limit_s=limit_s)


def fail(answer: Answer) -> CheckerError:
    """Return the error that an answer of any kind becomes."""
    with serve(lambda *_: answer) as service:
        checker = HttpChecker(service.way)
        with pytest.raises(CheckerError) as caught:
            ask(checker)
        checker.close()
        return caught.value


def test_a_statement_comes_back_and_the_token_goes_as_rfc_6750_says(
    service: Service, checker: HttpChecker
) -> None:
    assert ask(checker) == Sealed("5ea1")
    # RFC 6750, 2.1.
    assert service.seen == [("POST", "/checker/ask", f"Bearer {TOKEN}")]


def test_a_look_needs_no_token(service: Service, checker: HttpChecker) -> None:
    assert checker.look() == ""
    assert service.seen == [("GET", "/checker/health", "")]


def test_the_connection_is_kept_and_does_not_wait_to_fill_a_packet(
    service: Service, checker: HttpChecker
) -> None:
    for _ in range(3):
        ask(checker)
    assert service.connections == 1
    (kept,) = [connection for connection, _ in checker._idle]  # noqa: SLF001
    assert kept.sock.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY) != 0


def test_a_connection_that_was_dropped_while_idle_is_made_anew(
    service: Service, checker: HttpChecker
) -> None:
    ask(checker)
    service.to_drop = 1
    assert ask(checker) == Sealed("5ea1")
    assert len(service.seen) == 3


def test_a_question_that_is_dropped_twice_is_put_no_third_time(
    service: Service, checker: HttpChecker
) -> None:
    ask(checker)
    service.to_drop = 5
    with pytest.raises(CheckerAwayError, match="the connection broke off"):
        ask(checker)
    assert len(service.seen) == 3


def test_nobody_at_the_address_is_told_as_that() -> None:
    with serve(lambda *_: Answer(b"")) as service:
        way = service.way
    with pytest.raises(CheckerAwayError, match="nothing answers at its address"):
        ask(HttpChecker(way))


def test_a_name_that_nobody_knows_is_told_as_that() -> None:
    # RFC 6761, 6.4: no name under .invalid is ever given.
    way = Way("http://checker.invalid", TOKEN)
    with pytest.raises(CheckerAwayError) as caught:
        ask(HttpChecker(way))
    assert TOKEN not in str(caught.value)


def test_a_service_that_is_too_slow_is_given_up_in_time() -> None:
    def stall(*_: object) -> Answer:
        time.sleep(0.6)
        return Answer(b"")

    with serve(stall) as service:
        checker, started = HttpChecker(service.way), time.monotonic()
        with pytest.raises(CheckerSlowError):
            ask(checker, 0.2)
        assert time.monotonic() - started < 0.5


def test_a_service_that_was_away_is_looked_at_before_it_is_asked(
    service: Service, checker: HttpChecker
) -> None:
    service.to_drop = 1
    with pytest.raises(CheckerAwayError):
        ask(checker)
    assert ask(checker) == Sealed("5ea1")
    assert [path for _, path, _ in service.seen] == [
        "/checker/ask",
        "/checker/health",
        "/checker/ask",
    ]


def test_a_refusal_is_raised_with_its_code(checker: HttpChecker) -> None:
    with pytest.raises(CheckerRefusedError, match="No practice here") as caught:
        checker.ask(OpenSheet(None), task="open", limit_s=5.0)
    assert caught.value.code == "practice"


# RFC 9110, 15.5 and 15.6; RFC 6585, 4 for 429.
@pytest.mark.parametrize("status", [429, 500, 502, 503, 504])
def test_a_page_of_what_stands_before_the_service_is_no_refusal(status: int) -> None:
    error = fail(Answer(b"<html>Service Unavailable</html>", status))
    assert isinstance(error, CheckerAwayError)
    assert f"HTTP status {status}" in str(error)


@pytest.mark.parametrize("status", [401, 403])
def test_an_unknown_caller_is_told_what_to_do(status: int) -> None:
    error = fail(Answer(b"no", status))
    assert isinstance(error, CheckerRefusedError)
    assert (error.code, "Fetch your folder again" in str(error)) == ("caller", True)


@pytest.mark.parametrize(
    "answer", [Answer(b"hello"), Answer(b"{}", 404), Answer(b"", 302), Answer(b"[1]")]
)
def test_what_is_no_checker_is_told_as_that_and_not_quoted(answer: Answer) -> None:
    error = fail(answer)
    assert isinstance(error, CheckerRefusedError)
    assert error.code == "unreadable"
    assert "is no checker of this version" in str(error)


def test_a_service_that_asks_for_a_rest_is_left_alone(service: Service) -> None:
    busy = Answer(b"", 503, {"Retry-After": "30"})
    with serve(lambda *_: busy) as resting:
        checker = HttpChecker(resting.way)
        with pytest.raises(CheckerAwayError):
            ask(checker)
        assert "left alone" in checker.look()
        assert len(resting.seen) == 1
        checker.close()
    assert service.seen == []


def test_a_token_stands_in_no_error_and_no_description(service: Service) -> None:
    checker = HttpChecker(service.way)
    said = [repr(checker), repr(service.way), str(service.way)]
    said += [str(fail(Answer(TOKEN.encode(), status))) for status in (200, 401, 503)]
    checker.close()
    assert not any(TOKEN in each for each in said)
