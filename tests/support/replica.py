"""A service that can be killed at any moment, and is back soon at the same port."""

from __future__ import annotations

import multiprocessing
import os
import socket
import time
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.request import urlopen

from tests.support.serving import PATIENCE_S
from workbook.checker.launch import Setting, listen, serve
from workbook.checker.upgrade import prepare_database

if TYPE_CHECKING:
    from multiprocessing.context import ForkServerProcess

_HOST = "127.0.0.1"

# Each start forks from a process that has imported everything: it takes a moment.
_CONTEXT = multiprocessing.get_context("forkserver")
_CONTEXT.set_forkserver_preload(["tests.support.replica"])


class Replica:
    """
    A service in a process of its own.

    Parameters
    ----------
    course : Path
        The course file.
    database : str
        The address of the database.
    """

    def __init__(self, course: Path, database: str) -> None:
        with socket.socket() as free:
            free.bind((_HOST, 0))
            self._port = int(free.getsockname()[1])
        self._setting = Setting(str(course), database)
        self._process: ForkServerProcess | None = None
        #: Where it serves.
        self.address = f"http://{_HOST}:{self._port}"

    def start(self) -> None:
        """Start the service, and do not wait for it."""
        given = (self._setting, self._port)
        self._process = _CONTEXT.Process(target=_run, args=given, daemon=True)
        self._process.start()

    def wait(self) -> None:
        """Wait until questions are answered."""
        end_s = time.monotonic() + PATIENCE_S
        while True:
            try:
                urlopen(f"{self.address}/health", timeout=5).close()  # noqa: S310 - our own service
            except OSError:
                if time.monotonic() > end_s:
                    raise
                time.sleep(0.05)
            else:
                return

    def kill(self) -> None:
        """End the service as a power cut does."""
        if self._process is not None:
            self._process.kill()
            self._process.join()


def _run(setting: Setting, port: int) -> None:
    """Serve, once the database is there."""
    log = Path(setting.course).with_name(f"service-{port}.log")
    with log.open("ab") as said:
        os.dup2(said.fileno(), 1)
        os.dup2(said.fileno(), 2)
    prepare_database(setting.database, print)
    with listen(_HOST, port) as listener:
        serve(setting, listener, workers=1)
