"""The pages of a service: questions, health and figures."""

from __future__ import annotations

import asyncio
from contextlib import asynccontextmanager
from http import HTTPStatus
from typing import TYPE_CHECKING

from anyio import CapacityLimiter, to_thread
from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Mount, Route

from workbook.checker.database import CONNECTIONS
from workbook.checker.exchange import MOST_BYTES, Said, refuse_because
from workbook.checker.metric import CONTENT_TYPE, print_metrics
from workbook.checker.upgrade import find_revision, newest
from workbook.errors import CheckerRefusedError
from workbook.wire.message import Why, encode

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable

    from workbook.checker.database import Database
    from workbook.checker.exchange import Exchange

#: How long a question may take to come in [s].
_READING_S = 10.0

_STATUS = {True: HTTPStatus.OK, False: HTTPStatus.SERVICE_UNAVAILABLE}

_TOO_LONG = f"This is too long to be a question: {MOST_BYTES} bytes are read at most."
_TOO_SLOW = "The question did not come in whole."


class Pages:
    """
    What a service shows at its addresses.

    Parameters
    ----------
    exchange : Exchange
        Answers the questions.
    database : Database
        Whose state the page on health tells.
    """

    def __init__(self, exchange: Exchange, database: Database) -> None:
        self._exchange = exchange
        self._database = database
        # Judging waits for its turn in a thread, so that no other page does.
        self._room = CapacityLimiter(CONNECTIONS)

    async def ask(self, request: Request) -> Response:
        """
        Answer a question.

        Parameters
        ----------
        request : Request
            Its body is one request as JSON.

        Returns
        -------
        Response
            Its body is one reply as JSON, whatever the status.
        """
        body = await _read_body(request)
        if isinstance(body, Said):
            # What else comes on this connection is not read.
            return _respond(body, is_last=True)
        refused = self._exchange.enter()
        if refused is not None:
            return _respond(refused)
        try:
            header = request.headers.get("authorization", "")
            address = request.client.host if request.client else ""
            said = await to_thread.run_sync(
                self._exchange.reply, header, body, address, limiter=self._room
            )
        finally:
            self._exchange.leave()
        return _respond(said)

    async def health(self, request: Request) -> Response:
        """
        Tell whether questions can be answered.

        Parameters
        ----------
        request : Request
            Whoever sends it.

        Returns
        -------
        Response
            200 if they can, 503 if not; nothing secret.
        """
        del request
        try:
            revision = await to_thread.run_sync(find_revision, self._database)
        except CheckerRefusedError:
            revision = None
        is_well = revision == newest() and not self._exchange.is_stopping
        told = {
            "database": "away" if revision is None else "there",
            "revision": revision,
            "stopping": self._exchange.is_stopping,
        }
        return JSONResponse(told, _STATUS[is_well])

    async def metrics(self, request: Request) -> Response:
        """
        Tell the figures of the service.

        Parameters
        ----------
        request : Request
            Whoever sends it.

        Returns
        -------
        Response
            In the text form of Prometheus.
        """
        del request
        page = await to_thread.run_sync(print_metrics)
        return Response(page, media_type=CONTENT_TYPE)


def build_app(
    exchange: Exchange,
    database: Database,
    prefix: str = "",
    on_start: Callable[[], None] | None = None,
) -> Starlette:
    """
    Return the service as an application of ASGI.

    Parameters
    ----------
    exchange : Exchange
        Answers the questions.
    database : Database
        Is let go of when the application ends.
    prefix : str
        What stands before every address: empty, or a path that starts with a slash.
    on_start : callable, optional
        Called once the application is about to serve.

    Returns
    -------
    Starlette
        With three pages.
    """
    pages = Pages(exchange, database)

    @asynccontextmanager
    async def live(_: Starlette) -> AsyncIterator[None]:
        if on_start is not None:
            on_start()
        yield
        database.close()

    routes = [
        Route("/ask", pages.ask, methods=["POST"]),
        Route("/health", pages.health, methods=["GET"]),
        Route("/metrics", pages.metrics, methods=["GET"]),
    ]
    return Starlette(routes=[Mount(prefix, routes=routes)], lifespan=live)


async def _read_body(request: Request) -> bytes | Said:
    """Read a question that is neither too long nor too slow."""
    body = bytearray()
    try:
        async with asyncio.timeout(_READING_S):
            async for piece in request.stream():
                body += piece
                if len(body) > MOST_BYTES:
                    return refuse_because(Why.SIZE, _TOO_LONG)
    except (TimeoutError, ClientDisconnect):
        return refuse_because(Why.REQUEST, _TOO_SLOW)
    return bytes(body)


def _respond(said: Said, *, is_last: bool = False) -> Response:
    headers = {"Cache-Control": "no-store"}
    if is_last:
        headers["Connection"] = "close"
    if said.again_s:
        headers["Retry-After"] = str(said.again_s)
    if said.status == HTTPStatus.UNAUTHORIZED:
        headers["WWW-Authenticate"] = "Bearer"
    content = encode(said.reply)
    return Response(content, said.status, headers, media_type="application/json")
