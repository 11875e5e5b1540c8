"""
A folder for one run of a service, and an end for those that earlier runs left behind.

A run that is killed can't take its folder away. The system lets go of a lock when the
process ends that holds it, whatever ended it: so a folder whose lock can be had is of
nobody, in every container that shares the place.
"""

from __future__ import annotations

import os
import shutil
import stat
import sys
import tempfile
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

if sys.platform != "win32":
    import fcntl

if TYPE_CHECKING:
    from collections.abc import Iterator

#: How the folders' names begin.
_PREFIX = "workbook-figures-"

#: The file in a folder on which its owner holds a lock.
_OWNER = "owner"


@contextmanager
def make_scratch() -> Iterator[Path]:
    """
    Make a folder for this process alone, and take it away at the end.

    Folders of this user that processes left behind which are no more go as well.

    Yields
    ------
    Path
        An empty folder, but for the file that says whose it is.

    Raises
    ------
    OSError
        If there is no place for it.
    """
    _clear(Path(tempfile.gettempdir()))
    with tempfile.TemporaryDirectory(prefix=_PREFIX) as name:
        owner = _own(Path(name))
        try:
            yield Path(name)
        finally:
            os.close(owner)


def _own(folder: Path) -> int:
    """Lay down the locked file, and return what holds the lock."""
    # It has its name only once it is locked: without it, no folder is left behind.
    draft = folder / f"{_OWNER}-draft"
    owner = os.open(draft, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
    if sys.platform != "win32":
        fcntl.flock(owner, fcntl.LOCK_EX)
        draft.rename(folder / _OWNER)
    return owner


def _clear(place: Path) -> None:
    for folder in place.glob(f"{_PREFIX}*"):
        with suppress(OSError):
            if _is_left_behind(folder):
                shutil.rmtree(folder, ignore_errors=True)


def _is_left_behind(folder: Path) -> bool:
    """Tell whether a folder is this user's own, and its owner is no more."""
    if sys.platform == "win32":
        return False
    found = folder.lstat()
    if not stat.S_ISDIR(found.st_mode) or found.st_uid != os.geteuid():
        return False
    owner = os.open(folder / _OWNER, os.O_RDWR | os.O_NOFOLLOW)
    try:
        fcntl.flock(owner, fcntl.LOCK_EX | fcntl.LOCK_NB)
    finally:
        os.close(owner)
    return True
