"""The bank of comments that markers share: a text file, a line each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import TaskError
from workbook.store import append_line

if TYPE_CHECKING:
    from pathlib import Path

#: Lies beside the course file.
BANK_FILE = "course.comments.txt"

#: What everybody begins with; common practice, no source.
_FIRST = (
    "Name the cause: which step lost or added material?",
    "Say in which direction this moves the yield.",
    "Estimate its size from your own data.",
    "Clear, and backed by your own numbers.",
)


def read_bank(path: Path) -> tuple[str, ...]:
    """
    Return the comments of a bank.

    Parameters
    ----------
    path : Path
        The file; it need not be there.

    Returns
    -------
    tuple of str
        The first ones, and those that were put in, each once.

    Raises
    ------
    TaskError
        If the file can't be read.
    """
    try:
        text = path.read_text(encoding="utf-8") if path.exists() else ""
    except (OSError, UnicodeDecodeError) as error:
        msg = f"{path}: the bank of comments can't be read ({error})."
        raise TaskError(msg) from error
    lines = (line.strip() for line in text.splitlines())
    return tuple(dict.fromkeys((*_FIRST, *filter(None, lines))))


def put_in(path: Path, comment: str) -> None:
    """
    Put a comment into a bank.

    Parameters
    ----------
    path : Path
        The file; it is made when it does not exist.
    comment : str
        Any text; line ends become blanks.

    Raises
    ------
    TaskError
        If there is nothing in it, or the disk refuses.
    """
    line = " ".join(comment.split())
    if not line:
        msg = "Nothing is written that could be put into the bank."
        raise TaskError(msg)
    try:
        append_line(path, line.encode(), is_forced=True)
    except OSError as error:
        msg = f"{path} can't be written: {error.strerror}."
        raise TaskError(msg) from error
