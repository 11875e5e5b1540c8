"""The verdict on a step that asks for no quantity, by its kind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.judge.choice import judge_choice
from workbook.judge.ends import judge_range
from workbook.judge.kept import commit, keep
from workbook.judge.matching import judge_matching
from workbook.judge.mechanism import judge_mechanism
from workbook.judge.order import judge_order
from workbook.judge.table import judge_table
from workbook.labfile.form import MechanismForm, RangeForm, rows_of
from workbook.wire.answer import Answer, Chosen, Filled, Matched, Ordered, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.labfile.half import Ask


@dataclass(frozen=True, slots=True)
class Stands:
    """What the rest of a sheet says on a step that asks for no quantity."""

    #: Where the student stands with every quantity.
    owns: Mapping[str, Own]
    #: What is said of each cell of a reagent table, by its id.
    cells: Mapping[str, Verdict]


def judge_form(case: Case, ask: Ask, answer: Answer, stands: Stands) -> Verdict:
    """
    Return the verdict on a step that asks for no quantity.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    ask : Ask
        The step.
    answer : Answer
        What the student gave.
    stands : Stands
        What the rest of the sheet says.

    Returns
    -------
    Verdict
        UNREAD for an answer of another kind.
    """
    key = case.graph.lab.key
    verdict = Verdict(Outcome.UNREAD, words.OTHER_KIND)
    match ask.kind, answer:
        case "choice", Chosen():
            verdict = judge_choice(case, ask, answer, stands.owns)
        case "matching", Matched(matches=matches):
            verdict = judge_matching(matches, rows_of(ask.form), key.belongs[ask.id])
        case "mechanism", Ordered(cards=cards):
            verdict = _judge_mechanism(case, ask, cards)
        case "order", Ordered(cards=cards):
            verdict = judge_order(cards, dict(ask.options), key.before[ask.id])
        case "prediction", Chosen():
            verdict = commit(ask, answer)
        case "reagents", Filled():
            verdict = judge_table(case, ask, answer, stands.owns, stands.cells)
        case "range" | "text", Typed():
            verdict = _judge_typed(case, ask, answer, stands.owns)
    return verdict


def _judge_typed(
    case: Case, ask: Ask, answer: Typed, owns: Mapping[str, Own]
) -> Verdict:
    if isinstance(ask.form, RangeForm):
        return judge_range(case, ask.form, answer.text, owns)
    return keep(answer)


def _judge_mechanism(case: Case, ask: Ask, cards: tuple[str, ...]) -> Verdict:
    if not isinstance(ask.form, MechanismForm):
        msg = f"{ask.id!r} is no mechanism."
        raise TypeError(msg)
    key = case.graph.lab.key
    return judge_mechanism(cards, ask.form, key.before[ask.id], key.decoys[ask.id])
