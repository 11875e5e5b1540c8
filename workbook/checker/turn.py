"""
One writer after the other on one file, in the order in which they came.

SQLite lets a writer that finds another at work look again after pauses of its own, so
that under load some wait for seconds while later ones pass. The system's lock of a file
keeps a queue, and lets go of it when a process is killed.
"""

from __future__ import annotations

import os
import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING

if sys.platform != "win32":
    import fcntl

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


class Turn:
    """
    A queue of writers, of all threads and all processes of one machine.

    Parameters
    ----------
    path : Path
        An empty file beside the database, made when it is not there: a lock on the
        database's own file would end the locks that SQLite holds on it.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    @contextmanager
    def take(self) -> Iterator[None]:
        """
        Wait until all who came before have ended, and keep waiting who come after.

        On a system without such locks nobody waits here, and SQLite's own way is left.

        Yields
        ------
        None
            It is not to be taken again meanwhile by the same thread.

        Raises
        ------
        OSError
            If the file can't be opened.
        """
        descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        try:
            if sys.platform != "win32":
                fcntl.flock(descriptor, fcntl.LOCK_EX)
            yield
        finally:
            # Closing it lets go of the lock.
            os.close(descriptor)
