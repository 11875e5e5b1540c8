"""What goes over a bare socket to a service, and what no client of HTTP would send."""

from __future__ import annotations

import re
import socket
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlsplit

from tests.support.attack import put
from tests.support.caller import A1, B2
from workbook.wire.message import OpenSheet

if TYPE_CHECKING:
    from collections.abc import Iterator

#: How long an answer is waited for; a refusal comes in milliseconds [s].
_QUIET_S = 30.0

#: How long one that should be the last is listened after [s].
_MORE_S = 0.05

_STATUS = re.compile(rb"HTTP/1\.[01] ([0-9]{3}) ")

#: RFC 9112, 9.6: a server may end a connection while somebody still sends.
CLOSED = 0


class RawAttack(NamedTuple):
    """Bytes that are sent, and the statuses of all that comes back."""

    says: str
    sent: bytes
    #: None of them may be another; `CLOSED` where none comes, for a flood.
    statuses: tuple[int, ...] = (400,)


def dial(address: str) -> socket.socket:
    """Open a connection to a service."""
    parts = urlsplit(address)
    return socket.create_connection((parts.hostname, parts.port), timeout=_QUIET_S)


def exchange(address: str, sent: bytes, answers: int) -> bytes:
    """Send bytes, and return what comes back: so many answers, and what follows."""
    came = b""
    with dial(address) as line, suppress(ConnectionError, TimeoutError):
        line.sendall(sent)
        while piece := line.recv(65_536):
            came += piece
            if len(read_statuses(came)) >= answers:
                line.settimeout(_MORE_S)
    return came


def read_statuses(came: bytes) -> tuple[int, ...]:
    """Return the status of each answer in what came back."""
    return tuple(map(int, _STATUS.findall(came)))


def write(
    body: bytes = b"",
    *lines: str,
    header: str = "",
    first: str = "POST /ask HTTP/1.1",
    host: str = "Host: checker",
    length: str | None = "",
) -> bytes:
    """Return a request; *length* None leaves the length of the body out."""
    head = [first, host, *([f"Authorization: {header}"] if header else []), *lines]
    if length is not None:
        head.append(f"Content-Length: {length or len(body)}")
    return "\r\n".join([*filter(None, head), "", ""]).encode("latin-1") + body


def list_raw_attacks(header: str) -> Iterator[RawAttack]:
    """Give every attack; *header* is that of the first student's token."""
    yield from _join_requests(header)
    yield from _frame_twice(header)
    yield from _break_chunks(header)
    yield from _break_heads(header)
    yield from _flood(header)


def _join_requests(header: str) -> Iterator[RawAttack]:
    own, others = put(OpenSheet(A1)), put(OpenSheet(B2))
    good, rude = write(own, header=header), write(others)
    yield RawAttack(
        "a second request lives on the first one's token", good + rude, (200, 401)
    )
    yield RawAttack(
        "another's sheet behind one's own",
        good + write(others, header=header),
        (200, 403),
    )
    yield RawAttack(
        "a request in the body of another",
        write(write(others, header=header), header=header),
        (422,),
    )
    yield RawAttack("half a request behind a whole one", good + good[:30], (200,))
    many = write(first="GET /ask HTTP/1.1") * 50
    yield RawAttack("fifty requests at once", many, (405,) * 50)


def _frame_twice(header: str) -> Iterator[RawAttack]:
    body = put(OpenSheet(A1))
    size, chunked = len(body), "Transfer-Encoding: chunked"
    chunks = b"%x\r\n%s\r\n0\r\n\r\n" % (size, body)
    framed = {
        "two lengths that differ": (body, f"Content-Length: {size - 1}"),
        "two lengths that are the same": (body, f"Content-Length: {size}"),
        "a length and chunks": (chunks, chunked),
        "a length and an encoding that is none": (body, "Transfer-Encoding: identity"),
    }
    for says, (sent, line) in framed.items():
        yield RawAttack(says, write(sent, line, header=header, length=str(size)))
    for length in (
        f"{size}, {size}",
        f"-{size}",
        f"+{size}",
        "0x20",
        "9" * 30,
        "1e3",
        "12 3",
    ):
        says = f"a length that is {length!r}"
        yield RawAttack(says, write(body, header=header, length=length))
    encodings = ("chunked, identity", "xchunked", "chunked\x0b", '"chunked"', "gzip")
    for each in encodings:
        line = f"Transfer-Encoding: {each}"
        says = f"an encoding that is {each!r}"
        yield RawAttack(says, write(chunks, line, header=header, length=None))
    for line in ("Transfer-Encoding : chunked", "Transfer-Encoding\x00: chunked"):
        yield RawAttack(
            f"a header that is {line!r}",
            write(chunks, line, header=header, length=None),
        )


def _cut(chunks: bytes, header: str = "") -> bytes:
    """Return a request whose body comes in chunks."""
    return write(chunks, "Transfer-Encoding: chunked", header=header, length=None)


def _break_chunks(header: str) -> Iterator[RawAttack]:
    for size in (b"zz", b"-1", b"", b"0x5", b"f" * 17):
        chunks = size + b"\r\nhello\r\n0\r\n\r\n"
        yield RawAttack(f"a chunk whose size is {size!r}", _cut(chunks, header))
    others = {
        "a chunk longer than its size": b"3\r\nhello\r\n0\r\n\r\n",
        "a chunk that ends without a line": b"5\r\nhello0\r\n\r\n",
        "a size that ends with a bare line feed": b"5\nhello\r\n0\r\n\r\n",
    }
    for says, chunks in others.items():
        yield RawAttack(says, _cut(chunks, header))


def _break_heads(header: str) -> Iterator[RawAttack]:
    lines = {
        "a null in a header": "X-Name: a\0b",
        "a null in a header's name": "X\0Name: ab",
        "a carriage return in a header": "X-Name: a\rContent-Length: 0",
        "a line feed in a header": "X-Name: a\nAuthorization",
        "a header that goes on in a second line": "X-Name: a\r\n b",
        "a header without a colon": "X-Name",
        "a header without a name": ": b",
        "a second host": "Host: other",
        "an upgrade to another protocol": "Connection: Upgrade\r\nUpgrade: websocket",
        "an upgrade to HTTP/2": "Connection: Upgrade, HTTP2-Settings\r\nUpgrade: h2c",
    }
    body = put(OpenSheet(A1))
    for says, line in lines.items():
        yield RawAttack(says, write(body, line, header=header))
    yield RawAttack("no host", write(body, header=header, host=""))
    firsts = {
        "a null in the path": "POST /ask\0 HTTP/1.1",
        "a space in the path": "POST /ask b2 HTTP/1.1",
        "a tab in the path": "POST /ask\tb2 HTTP/1.1",
        "a letter in the path that is none of ASCII": "POST /ask\xff HTTP/1.1",
        "no path": "POST HTTP/1.1",
        "a path without a stroke": "POST ask HTTP/1.1",
        "a tunnel to another machine": "CONNECT 127.0.0.1:22 HTTP/1.1",
        "a method of small letters": "post /ask HTTP/1.1",
        "a method that nobody knows": "FETCH /ask HTTP/1.1",
        "version 2": "POST /ask HTTP/2.0",
        "version 9.9": "POST /ask HTTP/9.9",
        "no version": "POST /ask",
    }
    for says, first in firsts.items():
        yield RawAttack(says, write(body, header=header, first=first))
    yield RawAttack("HTTP/0.9", b"GET /health\r\n\r\n")
    yield RawAttack("the first line of HTTP/2", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n")
    yield RawAttack(
        "the first bytes of TLS",
        bytes.fromhex("160301 0200 0100 01fc 0303") + bytes(500),
    )
    yield RawAttack("nothing but zeros", bytes(5000))
    whole = write(header=header, first="OPTIONS * HTTP/1.1")
    yield RawAttack("the service as a whole", whole, (404,))
    for says, path in {
        "a null written as %00": "/ask%00",
        "a line feed written as %0a": "/ask%0aX: y",
        "a path of another machine": "http://127.0.0.1:1/course.key",
    }.items():
        first = f"GET {path.replace(' ', '%20')} HTTP/1.1"
        yield RawAttack(says, write(header=header, first=first), (404,))


def _flood(header: str) -> Iterator[RawAttack]:
    mega = "x" * 4_000_000
    floods = {
        "a first line of megabytes": write(first=f"GET /{mega} HTTP/1.1"),
        "a header of megabytes": write(b"", f"X-Name: {mega}", header=header),
        "a header's name of megabytes": write(b"", f"{mega}: a", header=header),
        "a hundred thousand headers": write(b"", *(["X-Name: a"] * 100_000)),
        "a body of chunks of one byte": _cut(b"1\r\nx\r\n" * 400_000, header),
        "a body whose trailer has no end": _cut(b"0\r\nX-Name: " + mega.encode()),
    }
    for says, sent in floods.items():
        yield RawAttack(says, sent, (400, 413, CLOSED))
