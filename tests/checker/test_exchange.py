"""From a header and a body to a status and a reply, whatever they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.caller import A1, ADA, BEN, DAY, Clock, ask_of, bear
from tests.support.soap import COURSE, NOON
from workbook.checker.caller import Caller
from workbook.checker.exchange import MOST_WAITING, Exchange, refuse_because
from workbook.checker.limit import BURST
from workbook.errors import CheckerRefusedError
from workbook.wire.message import (
    MESSAGE_VERSION,
    Judged,
    Opened,
    OpenSheet,
    Question,
    Refused,
    Request,
    SealHandIn,
    Statement,
    Why,
    encode,
)

if TYPE_CHECKING:
    from workbook.checker.exchange import Said


def body(question: Question, version: int = MESSAGE_VERSION) -> bytes:
    """Return a question as it comes."""
    return encode(Request(version, 7, question))


OPEN = body(OpenSheet(A1))


def why(said: Said) -> Why:
    """Return why a question was refused."""
    assert isinstance(said.reply.statement, Refused)
    return said.reply.statement.why


def test_a_question_of_a_known_caller_is_answered(exchange: Exchange) -> None:
    said = exchange.reply(bear(), OPEN)
    assert (said.status, said.reply.number) == (200, 7)
    assert isinstance(said.reply.statement, Opened)


@pytest.mark.parametrize(
    "header",
    [
        "",
        "Bearer",
        "Bearer ",
        "Bearer x",
        "Basic YTE6eA==",
        bear()[:-1],
        bear() + " more",
        bear() + "\r\nX: y",
        bear(until=NOON),
        bear(Caller("other", "a1")),
        "Bearer " + "x" * 10_000,
    ],
)
def test_who_is_not_known_is_told_so(exchange: Exchange, header: str) -> None:
    said = exchange.reply(header, OPEN)
    assert (said.status, why(said)) == (401, Why.CALLER)


def test_a_scheme_may_be_written_in_small_letters(exchange: Exchange) -> None:
    # RFC 9110, section 11.1: the scheme is case-insensitive.
    assert exchange.reply(bear().replace("Bearer", "bearer"), OPEN).status == 200


def test_who_asks_for_anothers_sheet_is_known_and_refused(exchange: Exchange) -> None:
    said = exchange.reply(bear(BEN), OPEN)
    assert (said.status, why(said)) == (403, Why.CALLER)


@pytest.mark.parametrize(
    ("sent", "reason"),
    [
        (b"", Why.REQUEST),
        (b"null", Why.REQUEST),
        (b"\xff", Why.REQUEST),
        (b"[" * 100_000, Why.REQUEST),
        (b'{"version": 2, "number": 7}', Why.REQUEST),
        (body(SealHandIn(A1, "no digest")), Why.REQUEST),
        (body(OpenSheet(A1), version=MESSAGE_VERSION + 1), Why.VERSION),
    ],
)
def test_what_is_no_request_is_refused(
    exchange: Exchange, sent: bytes, reason: Why
) -> None:
    said = exchange.reply(bear(), sent)
    assert (said.status, why(said)) == (422, reason)


def test_a_refusal_of_the_desk_is_a_statement_like_any_other(
    exchange: Exchange,
) -> None:
    said = exchange.reply(bear(), body(OpenSheet(None)))
    assert (said.status, why(said)) == (200, Why.PRACTICE)


def test_a_replay_and_a_used_up_step_are_told_apart(exchange: Exchange) -> None:
    for name, text in (("x", "1.00 g"), ("y", "2.00 g")):
        said = exchange.reply(bear(), body(ask_of("dish", text, name)))
        assert isinstance(said.reply.statement, Judged)
    replayed = exchange.reply(bear(), body(ask_of("dish", "3.00 g", "x")))
    assert (replayed.status, why(replayed)) == (422, Why.REPLAY)
    used_up = exchange.reply(bear(), body(ask_of("dish", "3.00 g")))
    assert (used_up.status, why(used_up)) == (200, Why.ATTEMPTS)


def test_who_asks_too_fast_is_told_when_to_come_again(exchange: Exchange) -> None:
    # On a slow machine some more are taken meanwhile.
    for _ in range(2 * BURST):
        exchange.reply(bear(), b"")
    said = exchange.reply(bear(), OPEN)
    assert (said.status, why(said), said.again_s) == (429, Why.RATE, 1)
    assert exchange.reply(bear(BEN), b"").status == 422


class _Faulty:
    """Counter and porter in one, with a fault."""

    def __init__(self, fault: Exception) -> None:
        self._fault = fault

    def find(self, token: str, address: str = "") -> Caller:
        """Know everybody."""
        del token, address
        return ADA

    def answer(self, _: Caller, __: Question) -> Statement:
        """Fail."""
        raise self._fault


def ask_faulty(fault: Exception) -> Said:
    faulty = _Faulty(fault)
    exchange = Exchange(faulty, faulty)  # type: ignore[arg-type]
    return exchange.reply("Bearer x", OPEN)


def test_a_fault_is_no_verdict_and_is_not_explained(
    capfd: pytest.CaptureFixture[str],
) -> None:
    said = ask_faulty(ValueError("could not convert '13.62 g'"))
    assert (said.status, why(said)) == (200, Why.LAB)
    assert "13.62" not in str(said.reply.statement)
    assert "13.62" not in "".join(capfd.readouterr())


def test_a_database_that_is_away_is_told_with_when_to_come_again() -> None:
    said = ask_faulty(CheckerRefusedError("away", "Not now."))
    assert (said.status, why(said)) == (503, Why.AWAY)
    assert said.again_s > 0


def test_a_service_that_is_stopping_begins_nothing(exchange: Exchange) -> None:
    assert exchange.enter() is None
    exchange.is_stopping = True
    said = exchange.enter()
    assert said is not None
    assert (said.status, why(said)) == (503, Why.AWAY)


def test_what_waits_is_bounded(exchange: Exchange) -> None:
    assert [exchange.enter() for _ in range(MOST_WAITING)] == [None] * MOST_WAITING
    full = exchange.enter()
    assert full is not None
    assert full.status == 503
    exchange.leave()
    assert exchange.enter() is None


def test_a_refusal_of_what_was_not_read_has_its_status() -> None:
    said = refuse_because(Why.SIZE, "Too long.")
    assert (said.status, said.again_s) == (413, 0)
    assert refuse_because(Why.RATE, "Too fast.", 9).again_s == 9


def test_a_token_that_ends_is_refused_from_then_on(
    exchange: Exchange, clock: Clock
) -> None:
    header = bear()
    assert exchange.reply(header, OPEN).status == 200
    clock.now += DAY
    assert exchange.reply(header, OPEN).status == 401
    assert COURSE not in str(exchange.reply(header, OPEN).reply.statement)
