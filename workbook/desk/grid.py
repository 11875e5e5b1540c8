"""A table of students by steps: a word and a shape for each, never colour alone."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from workbook.front.saying import INKS
from workbook.front.shape import draw
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import datetime, tzinfo

    from workbook.desk.running import Row, Tried
    from workbook.labfile.half import Ask

#: What is to be said in a narrow column.
_WORDS = {
    Outcome.RIGHT: "agrees",
    Outcome.FOLLOWS: "follows",
    Outcome.FIGURES: "figures",
    Outcome.SLIP: "slip",
    Outcome.WRONG: "differs",
    Outcome.DIMENSION: "unit",
    Outcome.PARTLY: "partly",
    Outcome.COMMITTED: "given",
    Outcome.NOTED: "noted",
    Outcome.KEPT: "to read",
}

_WAITS = "waits"

_NONE = '<span aria-label="not tried">–</span>'

_WHEN = "%d %b %H:%M"


def show_rows(
    rows: Sequence[Row],
    asks: Sequence[Ask],
    due: Mapping[str, datetime | None],
    zone: tzinfo,
    caption: str,
) -> str:
    """
    Return HTML of a table of students by steps.

    Parameters
    ----------
    rows : sequence of Row
        In the order of the table.
    asks : sequence of Ask
        The steps that are shown, in order.
    due : mapping of str to datetime or None
        By student.
    zone : tzinfo
        In which times are written.
    caption : str
        What is said of the whole class.

    Returns
    -------
    str
        A region that scrolls by keyboard too; every text is escaped.
    """
    titles = ("Student", "Done", "Last seen", "Handed in", "Due")
    steps = (ask.id.replace("_", " ").replace(".", " ") for ask in asks)
    head = "".join(f'<th scope="col">{escape(each)}</th>' for each in (*titles, *steps))
    body = "".join(_show_row(row, asks, due.get(row.student.id), zone) for row in rows)
    caption = f"{caption} Times are of {zone}."
    return (
        '<div class="scroll wb-who" tabindex="0" role="group" '
        f'aria-label="Students by steps"><table><caption>{escape(caption)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _show_row(row: Row, asks: Sequence[Ask], due: datetime | None, zone: tzinfo) -> str:
    student = row.student
    done = sum(ask.id in row.tried and row.tried[ask.id].is_done for ask in asks)
    cells = (
        f"{done} of {len(asks)}",
        *(_say_when(each, zone) for each in (row.last, row.handed_in, due)),
        *_list_cells(row, asks),
    )
    name = f"{escape(student.id)} <small>{escape(student.name)}</small>"
    return (
        f'<tr><th scope="row">{name}</th>'
        f"{''.join(f'<td>{cell}</td>' for cell in cells)}</tr>"
    )


def _list_cells(row: Row, asks: Sequence[Ask]) -> Iterator[str]:
    for ask in asks:
        tried = row.tried.get(ask.id)
        yield _NONE if tried is None else _show_tried(tried)


def _show_tried(tried: Tried) -> str:
    outcome = tried.outcome or Outcome.NOT_JUDGED
    word = _WORDS.get(outcome, _WAITS)
    times = f" <small>×{tried.attempts}</small>" if tried.attempts > 1 else ""
    return (
        f'<span class="{INKS[outcome]}">{draw(outcome)}'
        f'<span class="word">{word}{times}</span></span>'
    )


def _say_when(at: datetime | None, zone: tzinfo) -> str:
    return "–" if at is None else at.astimezone(zone).strftime(_WHEN)
