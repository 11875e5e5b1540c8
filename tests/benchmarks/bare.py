"""
An endpoint that judges nothing: it makes the same durable insert, and answers.

The service is held against it, to see what all the rest costs.
"""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from typing import TYPE_CHECKING

from anyio import to_thread
from sqlalchemy import insert
from starlette.applications import Starlette
from starlette.responses import Response
from starlette.routing import Route

from tests.support.notebook_run import ROOT
from tests.support.serving import PATIENCE_S
from workbook.checker.database import Database
from workbook.checker.launch import read_clock
from workbook.checker.tables import ATTEMPT
from workbook.checker.upgrade import upgrade
from workbook.wire.message import (
    MESSAGE_VERSION,
    JudgeAttempt,
    Judged,
    Reply,
    encode,
    read_request,
)
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from starlette.requests import Request

_VARIABLE = "WORKBOOK_BARE_DATABASE"

_SAID = encode(Reply(MESSAGE_VERSION, 1, Judged(Verdict(Outcome.RIGHT, "Kept."))))


def make_app() -> Starlette:
    """Return the endpoint, by the database that the environment names."""
    database = Database(os.environ[_VARIABLE])

    def keep(body: bytes) -> None:
        question = read_request(body).question
        if not isinstance(question, JudgeAttempt):
            raise TypeError(question)
        sheet = question.sheet
        row = {
            "course": sheet.course,
            "lab": sheet.lab,
            "revision": sheet.revision,
            "student": sheet.student,
            "id": question.attempt,
            "step": question.step,
            "answer": body.decode(),
            "received": read_clock(),
        }
        with database.write() as connection:
            connection.execute(insert(ATTEMPT).values(row))

    async def ask(request: Request) -> Response:
        await to_thread.run_sync(keep, await request.body())
        return Response(_SAID, media_type="application/json")

    return Starlette(routes=[Route("/ask", ask, methods=["POST"])])


@contextmanager
def serve_bare(database: str, workers: int, folder: Path) -> Iterator[str]:
    """Serve the endpoint, and yield its address."""
    opened = Database(database)
    upgrade(opened)
    opened.close()
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "uvicorn", "--factory", f"{__name__}:make_app"]
    options = ["--port", str(port), "--workers", str(workers), "--no-access-log"]
    environment = os.environ | {"PYTHONPATH": str(ROOT), _VARIABLE: database}
    with (folder / "bare.log").open("wb") as log:
        process = subprocess.Popen([*command, *options], stderr=log, env=environment)
    try:
        _wait(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(PATIENCE_S)


def _wait(port: int) -> None:
    end_s = time.monotonic() + PATIENCE_S
    while True:
        try:
            socket.create_connection(("127.0.0.1", port)).close()
        except OSError:
            if time.monotonic() > end_s:
                raise
            time.sleep(0.05)
        else:
            return
