"""A child process that is spoken to by the line, and never waited for blindly."""

from __future__ import annotations

import queue
import subprocess
import threading
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

#: How long a process may take to end by itself before it is killed [s].
_GRACE_S = 1.0

#: How often a waiting reader looks whether the process still lives [s].
_POLL_S = 0.1


#: What stands for the end of the process, as the end of a file does.
ENDED = b""


class LineProcess:
    """
    A program whose lines are read and written by threads of their own.

    A full pipe or a stalled program therefore never blocks the caller. What the
    program prints as errors is dropped: it is not for a student's eyes.

    Parameters
    ----------
    command : sequence of str
        The program and its arguments.
    """

    def __init__(self, command: Sequence[str]) -> None:
        # A session of its own: an interrupted kernel must not end the program.
        self._process = subprocess.Popen(  # noqa: S603 - our own command, no shell
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        self._inbox: queue.Queue[bytes] = queue.Queue()
        self._outbox: queue.Queue[bytes | None] = queue.Queue()
        self._threads = tuple(
            threading.Thread(target=pump, daemon=True)
            for pump in (self._read_lines, self._write_lines)
        )
        for thread in self._threads:
            thread.start()

    @property
    def code(self) -> int | None:
        """The exit code, or None while the process runs [-]."""
        return self._process.poll()

    def send(self, line: bytes) -> None:
        """
        Hand over a line to be written.

        Parameters
        ----------
        line : bytes
            With its line end.
        """
        self._outbox.put(line)

    def receive(self, deadline: float) -> bytes | None:
        """
        Return the next line, or None when the deadline has passed.

        Parameters
        ----------
        deadline : float
            On the clock of `time.monotonic` [s].

        Returns
        -------
        bytes or None
            One line, with its line end; `ENDED` when the process has ended.
        """
        while (left_s := deadline - time.monotonic()) > 0:
            try:
                return self._inbox.get(timeout=min(left_s, _POLL_S))
            except queue.Empty:
                # A child of the process may hold its output open after its death.
                if self.code is not None:
                    return ENDED
        return None

    def stop(self) -> None:
        """End the process, gently first; a dead one is no trouble."""
        self._outbox.put(None)
        self._wait()
        for thread in self._threads:
            thread.join(_GRACE_S)

    def _wait(self) -> None:
        """Wait for the end that a closed input or output announces, then force it."""
        try:
            self._process.wait(_GRACE_S)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()

    def _read_lines(self) -> None:
        if (stdout := self._process.stdout) is not None:
            with stdout:
                for line in stdout:
                    self._inbox.put(line)
        self._inbox.put(ENDED)

    def _write_lines(self) -> None:
        if (stdin := self._process.stdin) is None:
            return
        try:
            with stdin:
                while (line := self._outbox.get()) is not None:
                    stdin.write(line)
                    stdin.flush()
        except OSError:
            # The reader of the pipe is gone; `receive` reports the end.
            return
