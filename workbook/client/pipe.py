"""The checker as a child process: started when first asked, and anew after a death."""

from __future__ import annotations

import sys
import threading
import time
from typing import TYPE_CHECKING

import msgspec

from workbook.client.process import ENDED, LineProcess
from workbook.client.transport import LIMIT_S, accept
from workbook.errors import CheckerDiedError, CheckerRefusedError, CheckerSlowError
from workbook.wire.message import (
    MESSAGE_VERSION,
    Request,
    encode,
    read_head,
    read_reply,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from workbook.wire.message import Question, Reply, Statement

#: So many questions in a row without a word, and the process is given up.
_PATIENCE = 2

#: For programs: what came was no reply, or one of another version.
_UNREADABLE = "unreadable"
_VERSION = "version"


class PipeChecker:
    """
    A checker that runs beside the notebook and is spoken to through pipes.

    Parameters
    ----------
    folder : Path
        The student's folder.
    command : sequence of str or None
        The program to run; None runs the solver of this package.

    Notes
    -----
    A process that is slow once is kept, since its late reply is known by its
    number and dropped. One that dies, talks nonsense, or is silent twice in a row
    is let go, and the next question starts a fresh one.
    """

    #: The first question starts a process, and that takes seconds.
    patience_s = LIMIT_S

    def __init__(self, folder: Path, *, command: Sequence[str] | None = None) -> None:
        # -P: a file of the student's must not stand in for a module of the solver.
        solver = (sys.executable, "-P", "-m", "workbook.solver", str(folder))
        self._command = solver if command is None else tuple(command)
        self._process: LineProcess | None = None
        self._number = 0
        self._silences = 0
        self._turn = threading.Lock()

    def ask(self, question: Question, *, task: str, limit_s: float) -> Statement:
        """
        Put one question, and wait for its statement.

        Parameters
        ----------
        question : Question
            What is asked.
        task : str
            What it is for, in words that complete "asked to ...".
        limit_s : float
            How long to wait [s].

        Returns
        -------
        Statement
            Never a refusal: that is raised.

        Raises
        ------
        CheckerDiedError
            If the process could not start, or ended before it answered.
        CheckerSlowError
            If it did not answer in time.
        CheckerRefusedError
            If it said no, or what it said was no reply of this version.
        """
        deadline = time.monotonic() + limit_s
        with self._turn:
            process = self._start(task)
            self._number += 1
            process.send(encode(Request(MESSAGE_VERSION, self._number, question)))
            while (line := process.receive(deadline)) is not None:
                reply = self._read(line, process, task)
                if reply.number == self._number:
                    return accept(reply.statement)
            self._note_silence()
        raise CheckerSlowError(task, limit_s)

    def look(self) -> str:
        """
        Return that nothing stands in the way: a process can be started at any time.

        Returns
        -------
        str
            The empty text.
        """
        return ""

    def close(self) -> None:
        """End the process, if one runs."""
        if self._process is not None:
            self._process.stop()
            self._process = None
        self._silences = 0

    def _start(self, task: str) -> LineProcess:
        """Return the running process, a fresh one when the last has ended."""
        if self._process is not None and self._process.code is not None:
            self.close()
        if self._process is None:
            try:
                self._process = LineProcess(self._command)
            except OSError as error:
                raise CheckerDiedError(task, None) from error
        return self._process

    def _read(self, line: bytes, process: LineProcess, task: str) -> Reply:
        """Return the reply in a line; end the process when there is none in it."""
        if line == ENDED:
            self.close()
            raise CheckerDiedError(task, process.code)
        try:
            found = read_head(line).version
            if found == MESSAGE_VERSION:
                self._silences = 0
                return read_reply(line)
        except msgspec.DecodeError as error:
            self.close()
            reason = f"The checker said {line[:60]!r} when asked to {task}: no reply."
            raise CheckerRefusedError(_UNREADABLE, reason) from error
        self.close()
        reason = (
            f"The checker speaks version {found} of the messages, this notebook "
            f"version {MESSAGE_VERSION}. Install the same release of both."
        )
        raise CheckerRefusedError(_VERSION, reason)

    def _note_silence(self) -> None:
        """Give a process up that has been silent too often."""
        self._silences += 1
        if self._silences >= _PATIENCE:
            self.close()
