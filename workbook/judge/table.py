"""
The verdict on a reagent table: each cell by itself, from the student's own values.

A cell is judged as if it were a step that asks for a number, so its value follows
from what the student has in other cells, and later steps follow from it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.judge.choice import judge_limiting
from workbook.labfile.form import TableForm
from workbook.labfile.half import Ask
from workbook.wire.answer import Answer, Filled, Typed
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from workbook.judge.case import Case
    from workbook.judge.own import Own

#: What a sentence calls the question which reagent limits.
LIMITING = "what runs out first"


def list_cells(asks: Iterable[Ask]) -> dict[str, Ask]:
    """
    Return the cells that are asked in reagent tables, as steps of their own.

    Parameters
    ----------
    asks : iterable of Ask
        The steps of a lab.

    Returns
    -------
    dict of str to Ask
        By the quantity that each asks for; no step of a lab has such an id.
    """
    return {
        cell.of: Ask(f"{ask.id} {cell.id}", "number", cell.text, of=cell.of)
        for ask in asks
        if isinstance(ask.form, TableForm)
        for cell in ask.form.cells
    }


def spread(asks: Iterable[Ask], answers: Mapping[str, Answer]) -> dict[str, Answer]:
    """
    Return answers with those to the cells of reagent tables beside them.

    Parameters
    ----------
    asks : iterable of Ask
        The steps of a lab.
    answers : mapping of str to Answer
        By step.

    Returns
    -------
    dict of str to Answer
        A cell in which nothing stands has none.
    """
    found = dict(answers)
    for ask in asks:
        answer = answers.get(ask.id)
        if isinstance(ask.form, TableForm) and isinstance(answer, Filled):
            for filling in answer.cells:
                if filling.text.strip():
                    cell = f"{ask.id} {filling.row} {filling.column}"
                    found[cell] = Typed(filling.text)
    return found


@dataclass(frozen=True, slots=True)
class _Part:
    """One cell, or the question which reagent limits."""

    name: str
    #: None where it is empty.
    verdict: Verdict | None

    @property
    def holds(self) -> bool:
        return self.verdict is not None and self.verdict.value_holds


def judge_table(
    case: Case,
    ask: Ask,
    answer: Filled,
    owns: Mapping[str, Own],
    cells: Mapping[str, Verdict],
) -> Verdict:
    """
    Return the verdict on a reagent table.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    ask : Ask
        The step.
    answer : Filled
        What stands in the table.
    owns : mapping of str to Own
        Where the student stands with every quantity.
    cells : mapping of str to Verdict
        What is said of each cell that is not empty, by the ids of `list_cells`.

    Returns
    -------
    Verdict
        It names cells by row and column, and no number.
    """
    parts = list(_list_parts(case, ask, answer, owns, cells))
    if all(part.verdict is None for part in parts):
        return Verdict(Outcome.BLANK, words.UNFILLED)
    for part in parts:
        if part.verdict is not None and part.verdict.outcome in NO_ATTEMPT:
            sentence = f"{part.name}: {part.verdict.sentence}"
            return Verdict(part.verdict.outcome, sentence)
    held = tuple(part.holds for part in parts)
    if all(held):
        return _holding(parts, held)
    outcome = Outcome.PARTLY if any(held) else Outcome.WRONG
    return Verdict(outcome, " ".join(_list_faults(parts)), parts=held)


def _list_parts(
    case: Case,
    ask: Ask,
    answer: Filled,
    owns: Mapping[str, Own],
    cells: Mapping[str, Verdict],
) -> Iterator[_Part]:
    form = ask.form
    if not isinstance(form, TableForm):
        msg = f"{ask.id!r} is no reagent table."
        raise TypeError(msg)
    for cell in form.cells:
        yield _Part(cell.text, cells.get(f"{ask.id} {cell.id}"))
    if ask.id in case.graph.lab.key.limiting:
        chosen = {answer.limiting} if answer.limiting else set()
        said = judge_limiting(case, ask.id, chosen, owns) if chosen else None
        yield _Part(LIMITING, said)


def _holding(parts: list[_Part], held: tuple[bool, ...]) -> Verdict:
    """Return the verdict on a table that holds: right, following, or in its figures."""
    said = [part.verdict for part in parts if part.verdict is not None]
    follows = next((each for each in said if each.follows), None)
    figures = [
        part.name
        for part in parts
        if part.verdict is not None and part.verdict.outcome is Outcome.FIGURES
    ]
    outcome = Outcome.RIGHT if follows is None else Outcome.FOLLOWS
    sentence = words.RIGHT if follows is None else words.TABLE_FOLLOWS
    if figures:
        outcome = Outcome.FIGURES
        sentence = words.TABLE_FIGURES.format(names="; ".join(figures))
    return Verdict(
        outcome, sentence, value_holds=True, follows=follows is not None, parts=held
    )


def _list_faults(parts: list[_Part]) -> Iterator[str]:
    again = [part.name for part in parts if part.verdict is not None and not part.holds]
    empty = [part.name for part in parts if part.verdict is None]
    if any(part.holds for part in parts):
        yield words.TABLE_REST
    if again:
        yield words.TABLE_AGAIN.format(names="; ".join(again))
    if empty:
        yield words.TABLE_EMPTY.format(names="; ".join(empty))
