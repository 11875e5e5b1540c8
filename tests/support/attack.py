"""What somebody may send who is known as one student and wants to be another."""

from __future__ import annotations

import base64
import json
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from itsdangerous import URLSafeSerializer

from tests.support.caller import A1, ADA, B2, BEN, DAY, KEY, bear
from tests.support.soap import COURSE, LAB, NOON
from workbook.checker.caller import Caller
from workbook.checker.token import make_token
from workbook.draw.key import CourseKey
from workbook.wire.answer import Typed
from workbook.wire.message import (
    MESSAGE_VERSION,
    ExplainStep,
    JudgeAttempt,
    OpenSheet,
    PassGate,
    Question,
    Request,
    SealHandIn,
    Why,
    encode,
)
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

#: How long the longest question is that is read, and one beyond [byte].
_BEYOND = 256 * 1024 + 1

_OTHER_KEY = CourseKey(bytes(32))

#: What an attempt of the attacker's own is called that was recorded before.
EARLIER = "earlier"


class Attack(NamedTuple):
    """One thing that is sent, and how it is refused."""

    says: str
    status: int
    #: None where what comes back is no reply.
    why: Why | None
    body: bytes
    headers: Mapping[str, str] = MappingProxyType({})
    method: str = "POST"
    path: str = "/lab/ask"


def put(question: Question, version: int = MESSAGE_VERSION) -> bytes:
    """Return a question as it is sent."""
    return encode(Request(version, 1, question))


def judge(
    step: str = "dish", text: str = "40.00 g", name: str = "new", sheet: SheetId = A1
) -> bytes:
    """Return the question about an attempt as it is sent."""
    return put(JudgeAttempt(sheet, step, Typed(text), {}, name))


def list_attacks() -> Iterator[Attack]:
    """Give every attack that is one message, each of another kind."""
    yield from _forge_tokens()
    yield from _name_others()
    yield from _ask_beyond()
    yield from _break_messages()
    yield from _leave_the_path()


def _forge_tokens() -> Iterator[Attack]:
    own = bear().removeprefix("Bearer ")
    payload, _, signature = own.rpartition(".")
    bens = make_token(KEY, BEN, NOON + DAY).rpartition(".")[0]
    turned = signature[:5] + ("A" if signature[5] != "A" else "B") + signature[6:]
    content = {"course": COURSE, "lab": LAB, "student": "b2", "until": "2099-01-01Z"}
    seal = KEY.seal("hand-in", COURSE, LAB, "1", "b2", "0" * 64)

    def sign(secret: str, salt: str = "workbook sheet") -> str:
        return str(URLSafeSerializer(secret, salt=salt).dumps(content))

    tokens = {
        "a token cut short": own[:-9],
        "a token with one sign changed": f"{payload}.{turned}",
        "another student's content under one's own signature": f"{bens}.{signature}",
        "a content without a signature": payload,
        "a content with an empty signature": f"{bens}.",
        "a token signed with the course's name": sign(COURSE),
        "a token signed with nothing": sign(""),
        "a token signed with a seal that the checker gives out": sign(seal),
        "a token with the library's own salt": sign(seal, "itsdangerous"),
        "a token of another key": make_token(_OTHER_KEY, BEN, NOON + DAY),
        "a token of another course": make_token(
            KEY, Caller("other-course", "b2"), NOON + DAY
        ),
        "a token whose time is over": make_token(KEY, ADA, NOON),
        "a web token that names no algorithm": _make_web_token("none"),
        "a web token signed with an empty secret": _make_web_token("HS256") + "AA",
        "a token of ten thousand signs": "x" * 10_000,
        "two tokens in one header": f"{own}, Bearer {own}",
        "a token with a space in it": f"{own[:9]} {own[9:]}",
    }
    body = put(OpenSheet(B2))
    for says, token in tokens.items():
        yield Attack(says, 401, Why.CALLER, body, _carry(f"Bearer {token}"))
    others = {
        "no token at all": {},
        "a name and a password": _carry("Basic YjI6YjI="),
        "a token under another scheme": _carry(f"Token {own}"),
        "a token in a cookie": {"Cookie": f"token={own}"},
        "a token in a header of one's own making": {"X-Api-Token": own},
    }
    for says, headers in others.items():
        yield Attack(says, 401, Why.CALLER, body, headers)
    query = f"/lab/ask?access_token={own}"
    yield Attack("a token in the address", 401, Why.CALLER, body, {}, path=query)


def _make_web_token(algorithm: str) -> str:
    """Return a token by RFC 7519 without a signature."""
    parts = ({"alg": algorithm, "typ": "JWT"}, {"sub": "b2", "student": "b2"})
    texts = (json.dumps(part).encode() for part in parts)
    return (
        ".".join(base64.urlsafe_b64encode(t).decode().rstrip("=") for t in texts) + "."
    )


def _name_others() -> Iterator[Attack]:
    seal = SealHandIn(B2, "0" * 64)
    wanted = {
        "another's sheet": put(OpenSheet(B2)),
        "a verdict on another's sheet": judge(sheet=B2),
        "a seal for another": put(seal),
        "another's readings behind the gate": put(PassGate(B2)),
        "another's worked answer": put(ExplainStep(B2, "dish", Typed("1 g"))),
    }
    for says, body in wanted.items():
        yield Attack(says, 403, Why.CALLER, body, _carry(bear()))
    for name in ("X-Forwarded-User", "X-Remote-User", "X-Student", "Cookie", "Host"):
        yield Attack(
            f"another's sheet with that student's id in the header {name}",
            *(403, Why.CALLER, put(OpenSheet(B2))),
            {**_carry(bear()), name: "b2"},
        )
    for id_ in ("B2", " b2", "b2\0", "a1/../b2", "*", "%", "' OR '1'='1", "a1\nb2", ""):
        body = put(OpenSheet(SheetId(COURSE, LAB, 1, id_)))
        says = f"a sheet of the student {id_!r}"
        yield Attack(says, 403, Why.CALLER, body, _carry(bear()))
    twice = put(OpenSheet(A1)).replace(
        b'"student":"a1"', b'"student":"a1","student":"b2"'
    )
    yield Attack("two students in one id", 403, Why.CALLER, twice, _carry(bear()))
    body = put(OpenSheet(SheetId("other-course", LAB, 1, "a1")))
    yield Attack("a sheet of another course", 403, Why.CALLER, body, _carry(bear()))
    other_lab = bear(Caller(COURSE, "a1", "aspirin"))
    body = put(OpenSheet(A1))
    yield Attack("a token of another lab", 403, Why.CALLER, body, _carry(other_lab))


def _ask_beyond() -> Iterator[Attack]:
    later = SheetId(COURSE, LAB, 99, "a1")
    unknown = SheetId(COURSE, "no-such-lab", 1, "a1")
    other = judge(text="41.00 g", name=EARLIER)
    moved = judge("dish_and_soap", "40.00 g", EARLIER)
    worked = put(ExplainStep(A1, "dish", Typed("1 g")))
    asked = {
        "a sheet of another revision": (Why.REVISION, put(OpenSheet(later))),
        "a revision of a thousand digits": (
            Why.REVISION,
            put(OpenSheet(A1)).replace(b'"revision":1', b'"revision":' + b"9" * 1000),
        ),
        "a verdict of another revision": (Why.REVISION, judge(sheet=later)),
        "a lab that is not of the course": (Why.COURSE, put(OpenSheet(unknown))),
        "a sheet for practice, with its key": (Why.PRACTICE, put(OpenSheet())),
        "a worked answer of one's own": (Why.PRACTICE, worked),
        "a step that is not there": (Why.STEP, judge("no_such_step")),
        "the hidden value as a step": (Why.STEP, judge("recovery")),
        "a path as a step": (Why.STEP, judge("../course.key")),
        "a known attempt with another answer": (Why.REPLAY, other),
        "a known attempt at another step": (Why.REPLAY, moved),
        "an attempt without a name": (Why.REQUEST, judge(name="")),
        "an attempt named by a statement of SQL": (
            Why.REQUEST,
            judge(name="x'); DROP TABLE attempt; --"),
        ),
        "an attempt with a name of a thousand signs": (
            Why.REQUEST,
            judge(name="x" * 1000),
        ),
        "an answer of a hundred thousand signs": (Why.SIZE, judge(text="4" * 100_000)),
        "a seal of what tokens are signed for": (
            Why.REQUEST,
            put(SealHandIn(A1, f"checker token\0{COURSE}")),
        ),
        "a seal of half a fingerprint": (Why.REQUEST, put(SealHandIn(A1, "0" * 32))),
    }
    status = {Why.REPLAY: 422, Why.REQUEST: 422, Why.SIZE: 413}
    whole_course = _carry(bear(Caller(COURSE, "a1")))
    for says, (why, body) in asked.items():
        yield Attack(says, status.get(why, 200), why, body, whole_course)


def _break_messages() -> Iterator[Attack]:
    good = put(OpenSheet(A1))
    messages = {
        "nothing": b"",
        "half a message": good[:40],
        "a hundred thousand brackets": b"[" * 100_000,
        "a pickled object": b"\x80\x04\x95\x0b\x00\x00\x00\x00\x00\x00\x00\x8c\x02os.",
        "bytes that are no text": good.replace(b'"a1"', b'"\xff\xfe"'),
        "half a surrogate": good.replace(b'"a1"', b'"\\ud800"'),
        "a null byte after the message": good.rstrip() + b"\0",
        "two messages in one": good.rstrip() + good,
        "a list of messages": b"[" + good + b"]",
        "a field that nobody knows": good.replace(b'"number"', b'"role":1,"number"'),
        "a number as a student": good.replace(b'"a1"', b"2"),
        "an object as a student": good.replace(b'"a1"', b'{"$ne":null}'),
        "a number that is infinite": good.replace(b'"number":1', b'"number":1e99999'),
        "no number at all": good.replace(b'"number":1', b'"number":NaN'),
        "a question that nobody knows": good.replace(b'"open"', b'"dump"'),
        "a form in place of JSON": b"student=b2&lab=olive-oil-soap",
        "a document of XML": b'<!DOCTYPE x [<!ENTITY e SYSTEM "file:///x">]><x>&e;</x>',
    }
    for says, body in messages.items():
        yield Attack(says, 422, Why.REQUEST, body, _carry(bear()))
    for version in (0, 1, 999):
        body = put(OpenSheet(A1), version)
        says = f"a message of version {version}"
        yield Attack(says, 422, Why.VERSION, body, _carry(bear()))
    for says, body in (
        ("a message that is too long", good.rstrip().ljust(_BEYOND)),
        ("a message that is too long, without a token", b"x" * _BEYOND),
    ):
        headers = _carry(bear()) if b"{" in body[:1] else {}
        yield Attack(says, 413, Why.SIZE, body, headers)


def _leave_the_path() -> Iterator[Attack]:
    for method in ("GET", "PUT", "DELETE", "PATCH", "TRACE"):
        says = f"a question by {method}"
        yield Attack(says, 405, None, put(OpenSheet(B2)), _carry(bear()), method)
    for method, path in (("POST", "metrics"), ("DELETE", "health")):
        says = f"{method} to the page {path}"
        yield Attack(says, 405, None, b"", {}, method, f"/lab/{path}")
    for path in (
        "/lab/../course.key",
        "/lab/%2e%2e/course.key",
        "/lab/ask/../../course.toml",
        "/lab//etc/passwd",
        "/lab/ask/b2",
        "/lab/docs",
        "/lab/openapi.json",
        "/lab/course.record.sqlite",
        "/lab/admin",
        "/ask",
    ):
        says = f"the page {path}"
        yield Attack(says, 404, None, b"", _carry(bear()), "GET", path)


def _carry(header: str) -> dict[str, str]:
    return {"Authorization": header}
