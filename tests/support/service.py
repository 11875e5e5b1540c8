"""A service in a thread, or any other answer over HTTP: for the client's side."""

from __future__ import annotations

import threading
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING

from typing_extensions import override

from workbook.client.way import Way
from workbook.wire.message import MESSAGE_VERSION, Reply, encode, read_request

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from workbook.wire.message import Question, Statement

#: What the service asks for.
TOKEN = "a-token.of_one-sheet"  # noqa: S105 - it opens nothing


@dataclass(frozen=True)
class Answer:
    """What is answered to one request."""

    content: bytes
    status: int = 200
    headers: Mapping[str, str] = field(default_factory=dict)


@dataclass
class Service:
    """A service that answers every request with what its function gives."""

    #: Takes the method, the path, and the body.
    respond: Callable[[str, str, bytes], Answer]
    port: int = 0
    #: The method and path of each request, and the token that came with it.
    seen: list[tuple[str, str, str]] = field(default_factory=list)
    #: How many connections were made [-].
    connections: int = 0
    #: How many of the next requests are dropped without a word [-].
    to_drop: int = 0

    @property
    def way(self) -> Way:
        """How a client finds it."""
        return Way(f"http://127.0.0.1:{self.port}/checker", TOKEN)


def answer_with(judge: Callable[[Question], Statement]) -> Callable[..., Answer]:
    """Return what answers a question with a judge's statement, and is always well."""

    def respond(method: str, path: str, body: bytes) -> Answer:
        del path
        if method == "GET":
            return Answer(b'{"database": "up"}')
        request = read_request(body)
        reply = Reply(MESSAGE_VERSION, request.number, judge(request.question))
        return Answer(encode(reply))

    return respond


@contextmanager
def serve(
    respond: Callable[[str, str, bytes], Answer], port: int = 0
) -> Iterator[Service]:
    """Serve on the loopback address, at a port of its own unless one is given."""
    service = Service(respond)

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"
        disable_nagle_algorithm = True
        timeout = 5

        @override
        def setup(self) -> None:
            super().setup()
            service.connections += 1

        def do_GET(self) -> None:
            self._say()

        def do_POST(self) -> None:
            self._say()

        def _say(self) -> None:
            body = self.rfile.read(int(self.headers.get("Content-Length", "0")))
            token = self.headers.get("Authorization", "")
            service.seen.append((self.command, self.path, token))
            if service.to_drop:
                service.to_drop -= 1
                self.close_connection = True
                return
            answer = respond(self.command, self.path, body)
            self.send_response(answer.status)
            for name, value in answer.headers.items():
                self.send_header(name, value)
            self.send_header("Content-Length", str(len(answer.content)))
            self.end_headers()
            self.wfile.write(answer.content)

        @override
        def log_message(self, format: str, *args: object) -> None:
            del format, args

    class Server(ThreadingHTTPServer):
        daemon_threads = True
        block_on_close = False

    with Server(("127.0.0.1", port), Handler) as server:
        service.port = server.server_port
        thread = threading.Thread(target=server.serve_forever, args=(0.05,))
        thread.start()
        try:
            yield service
        finally:
            server.shutdown()
            thread.join()
