"""
Tables as CSV files that are safe to open.

What a student types ends up in a cell, and a spreadsheet runs a cell that starts
like a formula. Such a text gets an apostrophe in front, which spreadsheets take as
"this is text".
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, TypeVar

from workbook.marking.printable import to_cell

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from pathlib import Path

    import pandas as pd

T = TypeVar("T")

#: Things that are tabulated at once [-].
_AT_ONCE = 100


def encode_csv(table: pd.DataFrame, *, has_head: bool = True) -> bytes:
    r"""
    Return a table as the content of a CSV file.

    Parameters
    ----------
    table : DataFrame
        Of text; any columns.
    has_head : bool
        True for a file, False for rows that are put behind others.

    Returns
    -------
    bytes
        UTF-8, with the line ends of RFC 4180; a cell that starts like a formula has
        an apostrophe in front.

    Examples
    --------
    >>> import pandas as pd
    >>> encode_csv(pd.DataFrame({"typed": ["=1+1", "13.6 g"]}))
    b"typed\r\n'=1+1\r\n13.6 g\r\n"
    """
    text: str = table.map(to_cell).to_csv(
        index=False, lineterminator="\r\n", header=has_head
    )
    return text.encode()


def write_csv(
    path: Path, tabulate: Callable[[Sequence[T]], pd.DataFrame], things: Iterable[T]
) -> None:
    """
    Write a table of any length, some rows at a time.

    Parameters
    ----------
    path : Path
        The CSV file; it is made.
    tabulate : callable
        Gives the rows of some things, with any columns, and for none the head alone.
    things : iterable
        What the table is of.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    left = iter(things)
    with path.open("xb") as file:
        file.write(encode_csv(tabulate(())))
        while some := list(islice(left, _AT_ONCE)):
            file.write(encode_csv(tabulate(some), has_head=False))
