"""
Writing a file whole or not at all.

It is made under a hidden name beside its place, forced to the disk, and then given
its name. A file that stood there before is kept, unless the caller says that it may
go.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TYPE_CHECKING, BinaryIO, TypeAlias

from workbook.errors import TaskError
from workbook.store.draft import force_name, hide

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

#: What a file holds, or what writes it where it is too large to be held.
Content: TypeAlias = bytes | Callable[[BinaryIO], object]


def write_file(path: Path, content: Content, *, may_replace: bool = False) -> None:
    """
    Write a file whole or not at all.

    Parameters
    ----------
    path : Path
        Its name; the folder exists.
    content : bytes or callable
        All of it, or what writes it into a file that is opened.
    may_replace : bool
        True when a file of that name may go.

    Raises
    ------
    TaskError
        If a file of that name must stay, or the disk refuses.
    """
    try:
        if may_replace:
            _write_draft(path, content).replace(path)
            force_name(path)
        else:
            write_new(path.parent, (path.name,), content)
    except FileExistsError:
        msg = (
            f"{path} is there already, and was left as it is. Give another place, or "
            f"add --replace."
        )
        raise TaskError(msg) from None
    except OSError as error:
        msg = f"{path} can't be written: {error.strerror}. Nothing was changed."
        raise TaskError(msg) from error


def write_new(folder: Path, names: Iterable[str], content: Content) -> Path:
    """
    Write a file whole or not at all, under the first name that is free.

    Parameters
    ----------
    folder : Path
        Where to.
    names : iterable of str
        The names to try, in order; an endless one is welcome.
    content : bytes or callable
        The whole file, or what writes it into a file that is opened.

    Returns
    -------
    Path
        The file, under the name that was free.

    Raises
    ------
    FileExistsError
        If none of the names is free.
    OSError
        If it can't be written; nothing is left behind.
    """
    draft = _write_draft(folder / "draft", content)
    try:
        for path in (folder / name for name in names):
            if _give_name(draft, path):
                force_name(path)
                return path
    finally:
        draft.unlink(missing_ok=True)
    raise FileExistsError(folder)


def _write_draft(path: Path, content: Content) -> Path:
    """Return a whole file under a hidden name, or leave nothing behind."""
    draft = hide(path)
    try:
        with draft.open("xb") as file:
            if isinstance(content, bytes):
                file.write(content)
            else:
                content(file)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        draft.unlink(missing_ok=True)
        raise
    return draft


def _give_name(draft: Path, path: Path) -> bool:
    """Give a draft its name, and tell whether that was free."""
    try:
        # A link, unlike a renaming, fails where the name is taken.
        path.hardlink_to(draft)
    except FileExistsError:
        return False
    except OSError:
        return _claim(draft, path)
    return True


def _claim(draft: Path, path: Path) -> bool:
    """Do the same where the disk knows no links: take the name, then fill it."""
    try:
        path.touch(exist_ok=False)
    except FileExistsError:
        return False
    draft.replace(path)
    return True
