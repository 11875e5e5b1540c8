"""Adding lines to a file that only grows, though others may write to it as well."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from workbook.store.draft import force_name

if TYPE_CHECKING:
    from pathlib import Path


def append_line(path: Path, line: bytes, *, is_forced: bool) -> None:
    """
    Add one line to a file; a line that was cut short before it is closed first.

    A line of another writer that is just being written looks cut as well. Closing it
    leaves an empty line after it, which says nothing and costs nothing.

    Parameters
    ----------
    path : Path
        The file; it is made when it does not exist.
    line : bytes
        Without a line end.
    is_forced : bool
        True to return only when the line is on the disk.

    Raises
    ------
    OSError
        If it can't be written.
    """
    is_new = not path.exists()
    # Unbuffered, so that a line is one call, which other writers can't come between.
    with path.open("ab+", buffering=0) as file:
        whole = b"\n" * _is_cut(file.fileno()) + line + b"\n"
        written = file.write(whole)
        # A disk that is full takes what fits, and complains of the rest.
        while written < len(whole):
            written += file.write(whole[written:])
        if is_forced:
            os.fsync(file.fileno())
    if is_new and is_forced:
        force_name(path)


def _is_cut(handle: int) -> bool:
    """Tell whether an open file ends in the middle of a line."""
    size = os.fstat(handle).st_size
    if size == 0:
        return False
    os.lseek(handle, size - 1, os.SEEK_SET)
    return os.read(handle, 1) != b"\n"
