"""The lines of a file that grows under several hands, each given when it is new."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


class Tail:
    """
    A reader that goes on where it stopped.

    Parameters
    ----------
    path : Path
        The file; it need not exist yet.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        #: Where the first line starts that had no end yet [byte], and its number.
        self._start = 0
        self._number = 1

    def read_on(self) -> Iterator[tuple[int, bytes]]:
        """
        Give the lines that are new, with their numbers from 1.

        Returns
        -------
        iterator of tuple
            Number and content. A last line without an end is given, and given again
            next time: it may have been cut short, or be still on its way.

        Raises
        ------
        OSError
            If the file is there and can't be read.
        """
        *whole, rest = self._read().split(b"\n")
        for line in whole:
            self._start += len(line) + 1
            self._number += 1
            yield self._number - 1, line
        if rest:
            yield self._number, rest

    def _read(self) -> bytes:
        try:
            with self._path.open("rb") as file:
                if file.seek(0, 2) < self._start:
                    # An older copy was put in its place: all of it may be new.
                    self._start, self._number = 0, 1
                file.seek(self._start)
                return file.read()
        except FileNotFoundError:
            return b""
