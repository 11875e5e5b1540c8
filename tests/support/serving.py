"""`workbook serve` as a process of its own, and a student who asks it."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import contextmanager
from typing import TYPE_CHECKING, NamedTuple

from tests.support.notebook_run import ROOT
from workbook.wire.message import (
    MESSAGE_VERSION,
    Question,
    Request,
    Statement,
    encode,
    read_reply,
)

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

#: How long a service may take to start or to end [s].
PATIENCE_S = 60

_ADDRESS = re.compile(r"at (http://\S+);")


class Heard(NamedTuple):
    """What a service answered."""

    status: int
    statement: Statement
    #: When to come again, as it said [s].
    again_s: int


class Service:
    """
    A service that runs.

    Parameters
    ----------
    process : Popen
        Of ``workbook serve``.
    address : str
        Where it serves.
    log : Path
        What it writes on its error stream.
    """

    def __init__(self, process: subprocess.Popen[str], address: str, log: Path) -> None:
        self.process = process
        self.address = address
        self.log = log

    def ask(self, header: str, question: Question) -> Heard:
        """Put a question, as a student with a token would."""
        request = urllib.request.Request(  # noqa: S310 - our own service
            f"{self.address}/ask",
            encode(Request(MESSAGE_VERSION, 1, question)),
            {"Authorization": header},
        )
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:  # noqa: S310
                return Heard(answer.status, read_reply(answer.read()).statement, 0)
        except urllib.error.HTTPError as error:
            again_s = int(error.headers.get("Retry-After", 0))
            return Heard(error.code, read_reply(error.read()).statement, again_s)

    def get(self, page: str) -> str:
        """Return a page that needs no token."""
        with urllib.request.urlopen(f"{self.address}/{page}", timeout=5) as answer:  # noqa: S310
            return str(answer.read().decode())

    def wait(self) -> None:
        """Wait until questions are answered."""
        end_s = time.monotonic() + PATIENCE_S
        while time.monotonic() < end_s and self.process.poll() is None:
            try:
                self.get("health")
            except OSError:
                time.sleep(0.1)
            else:
                return
        raise RuntimeError(self.log.read_text(encoding="utf-8"))

    def stop(self, number: int = signal.SIGTERM) -> int:
        """Send a signal, and return the status with which the service ends."""
        self.process.send_signal(number)
        return self.process.wait(PATIENCE_S)


@contextmanager
def serve(
    course: Path, *more: str, environment: dict[str, str] | None = None
) -> Iterator[Service]:
    """
    Serve a course at a port that is free, and end it whatever happens.

    Parameters
    ----------
    course : Path
        The course file.
    *more : str
        Further options.
    environment : dict of str to str, optional
        What is added to the environment.

    Yields
    ------
    Service
        It answers questions.
    """
    program = "from workbook.cli import main; main()"
    command = [*(sys.executable, "-c", program), "serve", str(course)]
    log = course.parent / f"service-{time.monotonic_ns()}.log"
    with log.open("w", encoding="utf-8") as errors:
        process = subprocess.Popen(
            [*command, "--port", "0", *more],
            stdout=subprocess.PIPE,
            stderr=errors,
            text=True,
            env=os.environ
            # A service that is killed leaves its files in the folder of the test.
            | {"PYTHONPATH": str(ROOT), "TMPDIR": str(course.parent)}
            | (environment or {}),
        )
    with process:
        try:
            found = next(filter(None, map(_ADDRESS.search, process.stdout or ())), None)
            if found is None:
                raise RuntimeError(log.read_text(encoding="utf-8"))
            service = Service(process, found[1], log)
            service.wait()
            yield service
        finally:
            if process.poll() is None:
                process.kill()
