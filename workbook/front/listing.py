"""Answers that are lists and tables, as they stand in the lab report."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from workbook.front.table import show_table
from workbook.wire.answer import Noted, Typed
from workbook.wire.sheet import (
    ChoiceStep,
    MatchingStep,
    MechanismStep,
    OrderStep,
    PredictionStep,
    ReagentsStep,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.wire.answer import Chosen, Filled, Matched, Ordered
    from workbook.wire.sheet import ReagentRow, Step

_NONE = "\N{EM DASH}"


def show_typed(text: str) -> str:
    """
    Return HTML of a text as it was typed.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Escaped, and set apart so that it can't turn the words around it.
    """
    return f'<bdi class="typed">{escape(text)}</bdi>'


def show_text(answer: Typed | Noted) -> str:
    """
    Return HTML of a typed answer; of an own reading, with what it was before.

    Parameters
    ----------
    answer : Typed or Noted
        What was given.

    Returns
    -------
    str
        Escaped.
    """
    shown = f'<p class="result">{show_typed(answer.text)}</p>'
    if isinstance(answer, Typed) or not answer.instead_of:
        return shown
    earlier, reason = show_typed(answer.instead_of), show_typed(answer.reason)
    return f'{shown}<p class="note">Before: {earlier}. Changed because: {reason}</p>'


def show_choice(step: Step, answer: Chosen) -> str:
    """
    Return HTML of what was ticked.

    Parameters
    ----------
    step : Step
        As it stands on the sheet; what it does not offer is left out.
    answer : Chosen
        What was given.

    Returns
    -------
    str
        A list; empty for a step of another kind.
    """
    if not isinstance(step, ChoiceStep | PredictionStep):
        return ""
    return _list("ul", {each.id: each.text for each in step.options}, answer.options)


def show_order(step: Step, answer: Ordered) -> str:
    """
    Return HTML of what was put in order.

    Parameters
    ----------
    step : Step
        As it stands on the sheet; what it does not offer is left out.
    answer : Ordered
        What was given.

    Returns
    -------
    str
        A numbered list; empty for a step of another kind.
    """
    match step:
        case OrderStep():
            texts = {each.id: each.text for each in step.cards}
        case MechanismStep():
            texts = {each.id: f"{each.text}: {each.change}" for each in step.cards}
        case _:
            return ""
    return _list("ol", texts, answer.cards)


def show_matching(step: Step, answer: Matched) -> str:
    """
    Return HTML of what was said to belong to what.

    Parameters
    ----------
    step : Step
        As it stands on the sheet; what it does not offer is left out.
    answer : Matched
        What was given.

    Returns
    -------
    str
        A table; empty for a step of another kind.
    """
    if not isinstance(step, MatchingStep):
        return ""
    said = {match.row: match.options for match in answer.matches}
    texts = {option.id: option.text for option in step.options}
    rows = (
        (
            escape(row.text),
            "<br>".join(
                escape(texts[option])
                for option in said.get(row.id, ())
                if option in texts
            )
            or _NONE,
        )
        for row in step.rows
    )
    return show_table(("", "Belongs to it"), rows)


def show_filled(step: Step, answer: Filled) -> str:
    """
    Return HTML of a table of reagents that was filled in.

    Parameters
    ----------
    step : Step
        As it stands on the sheet; what it does not ask is left out.
    answer : Filled
        What was given.

    Returns
    -------
    str
        A table, and the reagent that limits; empty for a step of another kind.
    """
    if not isinstance(step, ReagentsStep):
        return ""
    typed = {(cell.row, cell.column): cell.text for cell in answer.cells}
    titles = ("Substance", *(escape(column.text) for column in step.columns))
    names = [column.id for column in step.columns]
    rows = (
        (escape(row.name), *(_show_cell(row, name, typed) for name in names))
        for row in step.rows
    )
    limiting = (row.name for row in step.rows if row.id == answer.limiting)
    notes = (f'<p class="note">Runs out first: {escape(name)}</p>' for name in limiting)
    return f"{show_table(titles, rows)}{''.join(notes)}"


def _show_cell(
    row: ReagentRow, column: str, typed: Mapping[tuple[str, str], str]
) -> str:
    for cell in row.cells:
        if cell.column != column:
            continue
        if cell.shown:
            return escape(cell.shown)
        return f"{show_typed(typed.get((row.id, column), ''))} {escape(cell.unit)}"
    return _NONE


def _list(tag: str, texts: Mapping[str, str], chosen: tuple[str, ...]) -> str:
    items = (f"<li>{escape(texts[name])}</li>" for name in chosen if name in texts)
    return f"<{tag}>{''.join(items)}</{tag}>"
