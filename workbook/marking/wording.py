"""Answers and points in words, for a row of a table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.form import cell_names, rows_of
from workbook.marking.printable import to_printable
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Filling,
    Matched,
    Noted,
    Ordered,
    Placed,
    Typed,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from decimal import Decimal

    from workbook.graph.quantity import Quantity
    from workbook.graph.span import Span
    from workbook.labfile.half import Ask

#: Figures of the ends of a band: more than any step is answered with [-].
_FIGURES = 6


def say_points(points: Decimal) -> str:
    """
    Return a number of points without needless zeros.

    Parameters
    ----------
    points : Decimal
        Exact [point].

    Returns
    -------
    str
        Plain digits.

    Examples
    --------
    >>> from decimal import Decimal
    >>> say_points(Decimal("1.50")), say_points(Decimal("20"))
    ('1.5', '20')
    """
    text = f"{points:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def say_band(quantity: Quantity, accepted: Iterable[Span]) -> str:
    """
    Return where an answer is accepted, in the unit in which it is asked.

    Parameters
    ----------
    quantity : Quantity
        What is asked.
    accepted : iterable of Span
        In base units.

    Returns
    -------
    str
        ``"11.36 to 11.41 g"``; several are joined by "or".
    """
    return " or ".join(
        quantity.unit.put_behind(
            f"{quantity.from_base(each.low):.{_FIGURES}g} to "
            f"{quantity.from_base(each.high):.{_FIGURES}g}"
        )
        for each in accepted
    )


def say_answer(answer: Answer, ask: Ask) -> str:
    """
    Return an answer in one line, as near to what was typed as a line can be.

    Parameters
    ----------
    answer : Answer
        What the student gave.
    ask : Ask
        The step that it answers.

    Returns
    -------
    str
        Of printable characters only.
    """
    return to_printable(_say(answer, ask))


def _say(answer: Answer, ask: Ask) -> str:
    offered = dict(ask.options)
    said = ""
    match answer:
        case Typed(text=text) | Noted(text=text):
            said = text
        case Built(factors=factors, text=text):
            said = f"{' × '.join(map(_say_factor, factors))} = {text}"
        case Derived(lines=lines, text=text):
            said = "; ".join((*lines, text))
        case Chosen(options=named) | Ordered(cards=named):
            said = "; ".join(offered.get(each, each) for each in named)
        case Matched(matches=matches):
            rows = rows_of(ask.form)
            said = "; ".join(
                f"{rows.get(match.row, match.row)}: "
                f"{', '.join(offered.get(each, each) for each in match.options)}"
                for match in matches
            )
        case Filled(cells=cells, limiting=limiting):
            said = "; ".join((*_say_cells(cells, ask), limiting))
    return said


def _say_cells(cells: tuple[Filling, ...], ask: Ask) -> Iterator[str]:
    names = cell_names(ask.form)
    for cell in cells:
        key = f"{cell.row} {cell.column}"
        yield f"{names.get(key, key)}: {cell.text}"


def _say_factor(placed: Placed) -> str:
    return f"1/[{placed.factor}]" if placed.turned else f"[{placed.factor}]"
