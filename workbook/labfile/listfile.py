"""
Lists that an instructor keeps as CSV files: their rows, with the lines they stand on.

The first row names the columns. What the cells mean is said by whoever asks for them.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AuthorError, nearest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Layout:
    """Which columns a list has."""

    #: What a finding calls the list: "roster".
    what: str
    needed: tuple[str, ...]
    #: Columns that may be left out.
    more: tuple[str, ...]

    @property
    def known(self) -> tuple[str, ...]:
        """All columns."""
        return (*self.needed, *self.more)


@dataclass(frozen=True, slots=True)
class Row:
    """A row that is not blank, with the line that it starts on."""

    line: int
    cells: tuple[str, ...]


def read_rows(path: Path, layout: Layout) -> list[Row]:
    """
    Return the rows of a list, its head first.

    Parameters
    ----------
    path : Path
        A CSV file in UTF-8, with or without a byte order mark.
    layout : Layout
        The columns that it must and may have.

    Returns
    -------
    list of Row
        The head names every needed column, and none that is not known.

    Raises
    ------
    AuthorError
        If the file can't be read, is empty, or its head has other columns.
    """
    rows = _read_rows(path, layout)
    if not rows:
        finding = f"{path}:1: the file is empty; {_ask_for_columns(layout)}"
        raise AuthorError((finding,))
    findings = [f"{path}:{rows[0].line}: {e}" for e in _check_head(rows[0], layout)]
    if findings:
        raise AuthorError(tuple(findings))
    return rows


def explain_length(head: Row, row: Row) -> str:
    """
    Return that a row has another number of cells than the head, or the empty text.

    Parameters
    ----------
    head : Row
        The first row.
    row : Row
        Any other.

    Returns
    -------
    str
        A sentence.
    """
    if len(row.cells) == len(head.cells):
        return ""
    return (
        f"the number of cells is {len(row.cells)}, and {len(head.cells)} in the first "
        f"row; put a text with a comma in quotes."
    )


def _read_rows(path: Path, layout: Layout) -> list[Row]:
    reader = csv.reader(io.StringIO(_read_text(path, layout), newline=""), strict=True)
    rows: list[Row] = []
    line = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append(Row(line, tuple(cell.strip() for cell in cells)))
            line = reader.line_num + 1
    except csv.Error as error:
        finding = f"{path}:{line}: the row is no CSV ({error}); look at its quotes."
        raise AuthorError((finding,)) from error
    return rows


def _read_text(path: Path, layout: Layout) -> str:
    try:
        content = path.read_bytes()
    except OSError as error:
        msg = f"{path}: the {layout.what} can't be read: {error.strerror}."
        raise AuthorError((msg,)) from error
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        msg = (
            f"{path}:{line}: the byte {content[error.start]:#04x} is not UTF-8; save "
            f"the {layout.what} as CSV in UTF-8."
        )
        raise AuthorError((msg,)) from error


def _check_head(head: Row, layout: Layout) -> Iterator[str]:
    if len(head.cells) == 1 and (marks := set(head.cells[0]) & {";", "\t"}):
        yield f"the columns are parted by {marks.pop()!r}; save them with commas."
        return
    for name in layout.needed:
        if name not in head.cells:
            hint = nearest(name, set(head.cells) - set(layout.known))
            yield f"the column {name!r} is missing; {_ask_for_columns(layout)}{hint}"
    for name in sorted(set(head.cells) - set(layout.known)):
        yield f"{name!r} is no column of a {layout.what}.{nearest(name, layout.known)}"
    for name in sorted({each for each in head.cells if head.cells.count(each) > 1}):
        yield f"the column {name!r} stands there twice; keep one."


def _ask_for_columns(layout: Layout) -> str:
    needed, more = (
        ", ".join(map(repr, names)) for names in (layout.needed, layout.more)
    )
    return f"the first row names {needed} and, if used, {more}."
