"""The pages of a service, over HTTP in memory."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest
from starlette.testclient import TestClient

from tests.support.caller import A1, Clock, ask_of, bear
from tests.support.soap import COURSE
from workbook.checker.app import build_app
from workbook.checker.exchange import MOST_BYTES
from workbook.wire.message import (
    MESSAGE_VERSION,
    Judged,
    OpenSheet,
    Refused,
    Request,
    Why,
    encode,
    read_reply,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.checker.database import Database
    from workbook.checker.exchange import Exchange

DISH = encode(Request(MESSAGE_VERSION, 3, ask_of("dish", "45.12 g", "x")))
OPEN = encode(Request(MESSAGE_VERSION, 3, OpenSheet(A1)))


@pytest.fixture
def client(exchange: Exchange, database: Database) -> Iterator[TestClient]:
    with TestClient(build_app(exchange, database, "/lab")) as opened:
        yield opened


def test_a_question_gets_its_reply(client: TestClient) -> None:
    answer = client.post("/lab/ask", content=DISH, headers={"Authorization": bear()})
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/json"
    assert answer.headers["cache-control"] == "no-store"
    reply = read_reply(answer.content)
    assert reply.number == 3
    assert isinstance(reply.statement, Judged)


def test_who_is_not_known_is_asked_for_a_token(client: TestClient) -> None:
    answer = client.post("/lab/ask", content=DISH)
    assert answer.status_code == 401
    # RFC 6750, section 3.
    assert answer.headers["www-authenticate"] == "Bearer"
    assert isinstance(read_reply(answer.content).statement, Refused)


@pytest.mark.parametrize("declares", [True, False])
def test_what_is_too_long_is_not_read_to_its_end(
    client: TestClient, *, declares: bool
) -> None:
    long = b" " * (MOST_BYTES + 1)
    content = long if declares else iter([long[: MOST_BYTES // 2]] * 4)
    header = {"Authorization": bear()}
    answer = client.post("/lab/ask", content=content, headers=header)
    assert answer.status_code == 413
    statement = read_reply(answer.content).statement
    assert isinstance(statement, Refused)
    assert statement.why is Why.SIZE


def test_the_longest_question_is_read(client: TestClient) -> None:
    content = OPEN.ljust(MOST_BYTES)
    answer = client.post("/lab/ask", content=content, headers={"Authorization": bear()})
    assert answer.status_code == 200


def test_health_is_told_to_everybody(client: TestClient) -> None:
    answer = client.get("/lab/health")
    assert answer.status_code == 200
    told = {"database": "there", "revision": "first", "stopping": False}
    assert answer.json() == told


def test_health_tells_when_the_service_stops(
    client: TestClient, exchange: Exchange
) -> None:
    exchange.is_stopping = True
    assert client.get("/lab/health").status_code == 503
    answer = client.post("/lab/ask", content=DISH, headers={"Authorization": bear()})
    assert answer.status_code == 503
    assert int(answer.headers["retry-after"]) > 0


def test_figures_hold_no_student(client: TestClient) -> None:
    client.post("/lab/ask", content=DISH, headers={"Authorization": bear()})
    page = client.get("/lab/metrics").text
    asked = 'workbook_questions_total{kind="JudgeAttempt",result="Judged"}'
    assert asked in page
    assert '"a1"' not in page
    assert COURSE not in page


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/lab/ask", 405),
        ("POST", "/lab/health", 405),
        ("GET", "/", 404),
        ("GET", "/lab/record", 404),
        ("GET", "/ask", 404),
        ("GET", "/lab/../course.key", 404),
        ("GET", "/lab/%2e%2e/course.key", 404),
    ],
)
def test_there_is_nothing_else(
    client: TestClient, method: str, path: str, status: int
) -> None:
    assert client.request(method, path).status_code == status


def test_a_question_that_waits_holds_up_no_other_page(
    client: TestClient, database: Database
) -> None:
    header = {"Authorization": bear()}

    def ask() -> None:
        client.post("/lab/ask", content=DISH, headers=header)

    waiting = threading.Thread(target=ask)
    with database.write():
        # Nothing can be recorded meanwhile.
        waiting.start()
        assert client.get("/lab/health").status_code == 200
        assert waiting.is_alive()
    waiting.join()


def test_what_is_to_happen_at_the_start_happens(
    exchange: Exchange, database: Database, clock: Clock
) -> None:
    del clock
    told: list[str] = []
    app = build_app(exchange, database, on_start=lambda: told.append("started"))
    with TestClient(app) as opened:
        assert told == ["started"]
        assert opened.get("/health").status_code == 200
