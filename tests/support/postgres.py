"""A PostgreSQL server of the tests' own, which waits for the disk as any does."""

from __future__ import annotations

import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import OperationalError

from tests.support.watch import list_family

if TYPE_CHECKING:
    from collections.abc import Iterator

#: How long a server may take to start or to end [s].
PATIENCE_S = 60

#: Where Debian lays the programs of each release.
_DEBIAN = Path("/usr/lib/postgresql")

#: The server refuses to run as root.
_USER = "postgres"


def find_programs() -> Path | None:
    """Return the folder of the server's programs, or None where there is none."""
    found = sorted(_DEBIAN.glob("*/bin/initdb"), reverse=True)
    listed = shutil.which("initdb")
    return found[0].parent if found else Path(listed).parent if listed else None


def need_programs() -> Path:
    """
    Return the folder of the server's programs.

    Without them the test is skipped, in CI it fails.
    """
    programs = find_programs()
    if programs is not None:
        return programs
    reason = "no PostgreSQL is installed."
    if os.environ.get("CI"):
        pytest.fail(f"In CI a missing tool is a failure: {reason}")
    pytest.skip(reason)


class Server:
    """
    A server at a port of the loopback address.

    Parameters
    ----------
    programs : Path
        As `find_programs` gives it.
    folder : Path
        Where its files lie; the server's user owns it.
    """

    def __init__(self, programs: Path, folder: Path) -> None:
        self._programs = programs
        self._folder = folder
        self._names = count(1)
        self._process: subprocess.Popen[bytes] | None = None
        self._user = _USER if os.geteuid() == 0 else None
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = int(free.getsockname()[1])
        self._run("initdb", "--auth=trust", "--username=lab", "--no-sync")
        self.start()

    def start(self, *settings: str) -> None:
        """Start the server with further settings, and wait until it answers."""
        options = {
            "port": self.port,
            "listen_addresses": "127.0.0.1",
            "unix_socket_directories": "",
            "log_min_messages": "fatal",
        }
        command = [str(self._programs / "postgres"), "-D", str(self._folder)]
        for each in (
            *(f"{name}={value}" for name, value in options.items()),
            *settings,
        ):
            command += ["-c", each]
        self._process = subprocess.Popen(
            command, user=self._user, cwd=self._folder, stderr=subprocess.DEVNULL
        )
        end_s = time.monotonic() + PATIENCE_S
        while not self._answers():
            if time.monotonic() > end_s or self._process.poll() is not None:
                msg = "The server does not start."
                raise RuntimeError(msg)
            time.sleep(0.05)

    def stop(self, number: int = signal.SIGQUIT) -> None:
        """End the server: at once, as a crash does, unless another signal is given."""
        if self._process is not None:
            self._process.send_signal(number)
            self._process.wait(PATIENCE_S)

    def crash(self) -> None:
        """End every process of the server at once, as a power cut does."""
        if self._process is not None:
            for each in list_family(self._process.pid):
                with suppress(ProcessLookupError):
                    os.kill(each, signal.SIGKILL)
            self._process.wait(PATIENCE_S)

    def make(self) -> str:
        """Make a database, and return its address."""
        name = f"lab{next(self._names)}"
        engine = create_engine(self._name("postgres"), isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            connection.execute(text(f"CREATE DATABASE {name}"))
        engine.dispose()
        return f"postgresql://lab@127.0.0.1:{self.port}/{name}"

    def _name(self, database: str) -> str:
        return f"postgresql+psycopg://lab@127.0.0.1:{self.port}/{database}"

    def _answers(self) -> bool:
        engine = create_engine(self._name("postgres"))
        try:
            engine.connect().close()
        except OperationalError:
            return False
        finally:
            engine.dispose()
        return True

    def _run(self, program: str, *options: str) -> None:
        subprocess.run(
            [self._programs / program, "-D", self._folder, *options],
            user=self._user,
            cwd=self._folder,
            check=True,
            capture_output=True,
        )


@contextmanager
def run_server(programs: Path) -> Iterator[Server]:
    """Run a server in a new folder, and take both away at the end."""
    folder = Path(tempfile.mkdtemp(prefix="workbook-postgres-"))
    try:
        if os.geteuid() == 0:
            shutil.chown(folder, _USER)
        server = Server(programs, folder)
        try:
            yield server
        finally:
            # Its folder goes as well: it need not bring anything to the disk.
            server.stop()
    finally:
        shutil.rmtree(folder)
