"""Messages: what is written is read back, and nothing else is let in."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any

import msgspec
import pytest

from tests.wire.conftest import QUESTIONS, STATEMENTS
from workbook.wire.message import (
    MESSAGE_VERSION,
    OpenSheet,
    Question,
    Reply,
    Request,
    Sealed,
    Statement,
    encode,
    read_head,
    read_reply,
    read_request,
)

OPEN = {"version": 2, "number": 4, "question": {"type": "open", "sheet": None}}


def line(**changed: object) -> bytes:
    """Return a request whose fields are changed."""
    return json.dumps(OPEN | changed).encode()


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: type(q).__name__)
def test_a_request_is_read_back(question: Question) -> None:
    request = Request(MESSAGE_VERSION, 4, question)
    assert read_request(encode(request)) == request


@pytest.mark.parametrize("statement", STATEMENTS, ids=lambda s: type(s).__name__)
def test_a_reply_is_read_back(statement: Statement) -> None:
    reply = Reply(MESSAGE_VERSION, 4, statement)
    assert read_reply(encode(reply)) == reply


@pytest.mark.parametrize("statement", STATEMENTS, ids=lambda s: type(s).__name__)
def test_a_message_is_one_line(statement: Statement) -> None:
    encoded = encode(Reply(MESSAGE_VERSION, 4, statement))
    assert encoded.count(b"\n") == 1
    assert encoded.endswith(b"\n")
    assert json.loads(encoded)["number"] == 4


def test_a_request_that_was_written_by_hand_is_read() -> None:
    assert read_request(line()) == Request(2, 4, OpenSheet(None))


@pytest.mark.parametrize(
    "bad",
    [
        b"",
        b"{",
        b"null",
        b"[1, 4]",
        b"\xff\xfe",
        line(extra=1),
        line(version="1"),
        line(version=None),
        line(number=1.5),
        line(question=None),
        line(question={"type": "leak"}),
        line(question={"sheet": None}),
        line(question={"type": "open", "key": "x"}),
        line(question={"type": "open", "sheet": {"course": "c"}}),
        line(question={"type": "judge", "step": "a"}),
    ],
)
def test_what_is_no_request_is_refused(bad: bytes) -> None:
    with pytest.raises(msgspec.DecodeError):
        read_request(bad)


def test_a_reply_is_no_request_and_a_request_no_reply() -> None:
    with pytest.raises(msgspec.DecodeError):
        read_request(encode(Reply(2, 4, STATEMENTS[1])))
    with pytest.raises(msgspec.DecodeError):
        read_reply(line())


def test_a_hand_in_that_a_service_took_has_a_time_with_its_zone() -> None:
    sealed = Sealed("cd" * 32, datetime(2026, 11, 3, 9, 30, tzinfo=UTC))
    content = json.loads(encode(Reply(MESSAGE_VERSION, 4, sealed)))
    # The form of RFC 3339.
    assert content["statement"]["at"] == "2026-11-03T09:30:00Z"


def test_an_unknown_field_of_a_statement_is_refused() -> None:
    content: dict[str, Any] = json.loads(encode(Reply(2, 4, STATEMENTS[1])))
    content["statement"]["verdict"]["answer"] = "11.4 g"
    with pytest.raises(msgspec.DecodeError):
        read_reply(json.dumps(content).encode())


@pytest.mark.parametrize("extra", [{}, {"question": "of a later form"}, {"new": [1]}])
def test_the_head_of_any_version_is_read(extra: dict[str, object]) -> None:
    head = read_head(json.dumps({"version": 9, "number": 3} | extra).encode())
    assert (head.version, head.number) == (9, 3)


@pytest.mark.parametrize("bad", [b"{}", b"hello", b'{"version": 1}', b'{"number": 1}'])
def test_without_a_head_nothing_is_read(bad: bytes) -> None:
    with pytest.raises(msgspec.DecodeError):
        read_head(bad)
