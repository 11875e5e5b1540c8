"""Writing so that a crash, a full disk or a second writer loses nothing."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


def append_line(path: Path, line: bytes, *, is_forced: bool) -> None:
    """
    Add one line to a file; a line that was cut short before it is closed first.

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
    with path.open("ab+") as file:
        file.write(b"\n" * _is_cut(file.fileno()) + line + b"\n")
        file.flush()
        if is_forced:
            os.fsync(file.fileno())
    if is_new and is_forced:
        _force_folder(path.parent)


def write_new(folder: Path, names: Iterable[str], content: bytes) -> Path:
    """
    Write a file whole or not at all, under the first name that is free.

    Parameters
    ----------
    folder : Path
        Where to.
    names : iterable of str
        The names to try, in order; an endless one is welcome.
    content : bytes
        The whole file.

    Returns
    -------
    Path
        The file, under the name that was free.

    Raises
    ------
    OSError
        If it can't be written; nothing is left behind.
    """
    handle, name = tempfile.mkstemp(prefix=".", suffix=".part", dir=folder)
    draft = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        path = next(folder / name for name in names if _claim(folder / name))
        draft.replace(path)
    except BaseException:
        draft.unlink(missing_ok=True)
        raise
    _force_folder(folder)
    return path


def _claim(path: Path) -> bool:
    """Take a name that nobody has, so that no other file is replaced later."""
    try:
        path.touch(exist_ok=False)
    except FileExistsError:
        return False
    return True


def _is_cut(handle: int) -> bool:
    """Tell whether an open file ends in the middle of a line."""
    size = os.fstat(handle).st_size
    if size == 0:
        return False
    os.lseek(handle, size - 1, os.SEEK_SET)
    return os.read(handle, 1) != b"\n"


def _force_folder(folder: Path) -> None:
    """Force a new name to the disk, where the system can do that for a folder."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
