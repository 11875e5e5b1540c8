"""
One connection of a service: no head of a request slower or longer than any honest one.

Whoever keeps a connection open without saying what they want, or says it without end,
takes room from a class. What a proxy in front could read in another way than we do is
no request either.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from typing_extensions import override
from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

if TYPE_CHECKING:
    import asyncio

    from uvicorn.config import Config
    from uvicorn.server import ServerState

#: How long the head of a request may take to come in [s].
HEAD_S = 10.0

#: How long it may be [byte]: a token of ours has a thousand at most.
MOST_IN_HEAD = 64 * 1024

#: How long a request may be with all that frames its body [byte].
MOST_IN_ALL = 2 * 1024 * 1024

#: How many lines a head may have [-].
MOST_LINES = 100

_TOO_LONG = "The request is too long."


class Connection(HttpToolsProtocol):
    """
    A connection that ends where a request can't be an honest one.

    Parameters
    ----------
    config : Config
        Of the server.
    server_state : ServerState
        All that the server has open.
    app_state : dict
        What the application keeps.
    _loop : AbstractEventLoop or None
        Where it runs; None for the one that runs now.
    """

    def __init__(
        self,
        config: Config,
        server_state: ServerState,
        app_state: dict[str, object],
        _loop: asyncio.AbstractEventLoop | None = None,
    ) -> None:
        super().__init__(config, server_state, app_state, _loop)
        self._is_in_head = False
        #: What came in since the request began, but for its first piece [byte].
        self._size = 0
        self._end: asyncio.TimerHandle | None = None

    @override
    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override] # as the server has it
        super().connection_made(transport)
        self._wait_for_head()

    @override
    def connection_lost(self, exc: Exception | None) -> None:
        self._take_head()
        super().connection_lost(exc)

    @override
    def data_received(self, data: bytes) -> None:
        self._size += len(data)
        super().data_received(data)
        most = MOST_IN_HEAD if self._is_in_head else MOST_IN_ALL
        if self._size > most and not self.transport.is_closing():
            self.send_400_response(_TOO_LONG)

    @override
    def on_message_begin(self) -> None:
        super().on_message_begin()
        self._size = 0
        self._wait_for_head()

    @override
    def on_header(self, name: bytes, value: bytes) -> None:
        super().on_header(name, value)
        if len(self.headers) > MOST_LINES:
            raise ValueError(_TOO_LONG)

    @override
    def on_headers_complete(self) -> None:
        self._take_head()
        if wrong := self._explain_head():
            # The server answers it with the status 400, and closes the connection.
            raise ValueError(wrong)
        super().on_headers_complete()

    def _explain_head(self) -> str:
        """Say why a head that can be read is refused; empty where it is not."""
        version = self.parser.get_http_version()
        hosts = [name for name, _ in self.headers if name == b"host"]
        wrong = ""
        if version not in {"1.0", "1.1"}:
            wrong = "This version of HTTP is not spoken here."
        elif self.parser.should_upgrade():
            wrong = "No other protocol is spoken here."
        elif len(hosts) > 1 or (version == "1.1" and not hosts):
            # RFC 9112, 3.2.
            wrong = "One host is to be named."
        return wrong

    def _wait_for_head(self) -> None:
        self._is_in_head = True
        if self._end is None:
            self._end = self.loop.call_later(HEAD_S, self._give_up)

    def _take_head(self) -> None:
        self._is_in_head = False
        if self._end is not None:
            self._end.cancel()
            self._end = None

    def _give_up(self) -> None:
        self._end = None
        self.transport.close()
