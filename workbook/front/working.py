"""What a student wrote in answer to one step, as it stands in the lab report."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, assert_never

from workbook.errors import RelationError
from workbook.front.cancel import cancel, factor_link, start_link
from workbook.front.fraction import show_fractions
from workbook.front.listing import (
    show_choice,
    show_filled,
    show_matching,
    show_order,
    show_text,
    show_typed,
)
from workbook.relation.mathml import to_mathml
from workbook.relation.reader import read_line
from workbook.wire.answer import (
    Built,
    Chosen,
    Derived,
    Filled,
    Matched,
    Noted,
    Ordered,
    Typed,
)
from workbook.wire.sheet import AlgebraStep, ChainStep

if TYPE_CHECKING:
    from workbook.wire.answer import Answer
    from workbook.wire.sheet import Factor, Step

_POINTED = " <em>stops following here</em>"


def show_working(step: Step, answer: Answer, at: int | None) -> str:
    """
    Return HTML of an answer with the working that leads to it.

    Parameters
    ----------
    step : Step
        As it stands on the sheet.
    answer : Answer
        What was given.
    at : int or None
        Index of the line of working that stopped following.

    Returns
    -------
    str
        Paragraphs and lists; everything that came from elsewhere is escaped.
    """
    shown: str
    match answer:
        case Built():
            shown = _show_chain(step, answer) if isinstance(step, ChainStep) else ""
        case Derived():
            shown = (
                _show_algebra(step, answer, at) if isinstance(step, AlgebraStep) else ""
            )
        case Chosen():
            shown = show_choice(step, answer)
        case Ordered():
            shown = show_order(step, answer)
        case Matched():
            shown = show_matching(step, answer)
        case Filled():
            shown = show_filled(step, answer)
        case Typed() | Noted():
            shown = show_text(answer)
        case _:
            assert_never(answer)
    return shown


def result_of(answer: Answer) -> str:
    """
    Return the result that stands in an answer.

    Parameters
    ----------
    answer : Answer
        What was given.

    Returns
    -------
    str
        As it was typed; empty for a choice.
    """
    return answer.text if isinstance(answer, Typed | Noted | Built | Derived) else ""


def _show_chain(step: ChainStep, answer: Built) -> str:
    offers = {factor.id: factor for factor in step.offers}
    placed = [each for each in answer.factors if each.factor in offers]
    turned = (
        factor_link(offers[each.factor], is_turned=each.turned) for each in placed
    )
    links = [start_link(step), *turned]
    reduced = cancel(links)
    names = (_name(offers[each.factor], is_turned=each.turned) for each in placed)
    chain = show_fractions(step.start, links, reduced)
    return (
        f'<p class="chain">{chain} = {show_typed(answer.text)}</p>'
        f"{_note('Factors', '; '.join(names))}{_note('Unit left', reduced.words)}"
    )


def _name(factor: Factor, *, is_turned: bool) -> str:
    return f"{factor.label}, turned over" if is_turned else factor.label


def _show_algebra(step: AlgebraStep, answer: Derived, at: int | None) -> str:
    letters = (f"{letter.symbol}: {letter.means}" for letter in step.letters)
    lines = (
        f"<li>{_show_line(line)}{_POINTED if number == at else ''}</li>"
        for number, line in enumerate(answer.lines)
    )
    return (
        f"{_note('Known', '; '.join(step.known))}{_note('Letters', '; '.join(letters))}"
        f'<ol class="lines">{"".join(lines)}</ol>'
        f'<p class="result">{show_typed(answer.text)}</p>'
    )


def _show_line(line: str) -> str:
    try:
        return f'<math displaystyle="true">{to_mathml(read_line(line))}</math>'
    except RelationError:
        return show_typed(line)


def _note(title: str, text: str) -> str:
    return f'<p class="note">{title}: {escape(text)}</p>' if text else ""
