"""Hidden names for what is not whole yet, and forcing what is to the disk."""

from __future__ import annotations

import os
import secrets
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


def hide(path: Path) -> Path:
    """
    Return a hidden name that nobody has, beside the place of a file or a folder.

    Parameters
    ----------
    path : Path
        The place.

    Returns
    -------
    Path
        In the same folder, so that a draft can be renamed to its place.
    """
    return path.with_name(f".{path.name}.{secrets.token_hex(8)}")


def force(path: Path) -> None:
    """
    Force a file or a folder to the disk; some systems can't for a folder.

    Parameters
    ----------
    path : Path
        What is there.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    with suppress(PermissionError):
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def force_name(path: Path) -> None:
    """
    Force the new name of something whose content is on the disk already.

    Where that can't be done nothing is raised: what was written is there and whole.

    Parameters
    ----------
    path : Path
        What has got its name.
    """
    with suppress(OSError):
        force(path.parent)
