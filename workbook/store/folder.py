"""
Filling a folder whole or not at all.

It is filled under a hidden name beside its place, forced to the disk, and then given
its name. A folder that stood there before is set aside, never deleted.
"""

from __future__ import annotations

import shutil
from contextlib import contextmanager
from itertools import count
from typing import TYPE_CHECKING

from workbook.errors import TaskError
from workbook.store.draft import force, force_name, hide

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@contextmanager
def make_folder(
    path: Path, *, may_replace: bool = False, owned: frozenset[str] = frozenset()
) -> Iterator[Path]:
    """
    Fill a folder that gets its name only when the block ends well.

    An earlier folder of that name is not deleted: it is set aside beside the new
    one, as `set_aside` names it.

    Parameters
    ----------
    path : Path
        Its name; folders above it are made.
    may_replace : bool
        True when an earlier folder may be set aside.
    owned : frozenset of str
        What an earlier folder may hold; with anything else it is not ours to move.

    Yields
    ------
    Path
        The folder to fill, under a hidden name beside its place.

    Raises
    ------
    TaskError
        If the place is taken, or the disk refuses; nothing was changed.
    """
    _refuse_taken(path, may_replace=may_replace, owned=owned)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        draft = hide(path)
        draft.mkdir()
    except OSError as error:
        msg = f"{path} can't be made: {error.strerror}. Nothing was changed."
        raise TaskError(msg) from error
    try:
        yield draft
        _force_tree(draft)
        _settle(draft, path)
    except OSError as error:
        msg = f"{path} can't be written: {error.strerror}. Nothing was changed."
        raise TaskError(msg) from error
    finally:
        shutil.rmtree(draft, ignore_errors=True)


def is_free(path: Path) -> bool:
    """
    Tell whether a folder can be made without touching anything.

    Parameters
    ----------
    path : Path
        The folder's name.

    Returns
    -------
    bool
        True when nothing is there, or an empty folder.
    """
    if path.is_symlink() or not path.is_dir():
        return not (path.is_symlink() or path.exists())
    return next(path.iterdir(), None) is None


def set_aside(path: Path) -> Path:
    """
    Return the name under which an earlier folder is kept.

    Parameters
    ----------
    path : Path
        The folder that makes room.

    Returns
    -------
    Path
        The first of ``<name>.before-1``, ``<name>.before-2`` ... that is free.
    """
    names = (path.with_name(f"{path.name}.before-{n}") for n in count(1))
    return next(name for name in names if not (name.exists() or name.is_symlink()))


def _refuse_taken(path: Path, *, may_replace: bool, owned: frozenset[str]) -> None:
    if is_free(path):
        return
    if not may_replace:
        raise TaskError(_exists(path))
    if path.is_symlink() or not path.is_dir():
        msg = f"{path} is not a folder, so it is not replaced. Give another place."
        raise TaskError(msg)
    if strangers := sorted({each.name for each in path.iterdir()} - owned):
        msg = (
            f"{path} also holds {', '.join(map(repr, strangers))}, which this command "
            f"does not write, so it is not replaced. Give another place."
        )
        raise TaskError(msg)


def _exists(path: Path) -> str:
    return (
        f"{path} is there already, and was left as it is. Give another place, or "
        f"add --replace."
    )


def _settle(draft: Path, path: Path) -> None:
    aside = None if is_free(path) else path.rename(set_aside(path))
    try:
        draft.rename(path)
    except OSError:
        if aside is not None:
            aside.rename(path)
        raise
    force_name(path)


def _force_tree(folder: Path) -> None:
    for place in folder.rglob("*"):
        force(place)
    force(folder)
