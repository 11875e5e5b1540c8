"""A table for paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


def show_table(titles: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """
    Return HTML of a table whose rows are named by their first cell.

    Parameters
    ----------
    titles : sequence of str
        One a column, as HTML.
    rows : iterable of sequence of str
        The cells of each row, as HTML.

    Returns
    -------
    str
        Empty when there are no rows.

    Examples
    --------
    >>> show_table(("Reading", "As read"), [])
    ''
    """
    body = "".join(
        f'<tr><th scope="row">{first}</th>'
        f"{''.join(f'<td>{cell}</td>' for cell in rest)}</tr>"
        for first, *rest in rows
    )
    # A corner that names nothing is no head: a screen reader would say it to each row.
    head = "".join(
        f'<th scope="col">{title}</th>' if title else "<td></td>" for title in titles
    )
    return f"<table><thead><tr>{head}</tr></thead>{body}</table>" if body else ""
