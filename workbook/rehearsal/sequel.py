"""Whole sheets with slips in them: what comes after a slip is worked out honestly."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge.judge import judge_sheet
from workbook.judge.stand import is_possible
from workbook.labfile.form import TableForm
from workbook.rehearsal.habit import draw_habit
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.student import Student
from workbook.relation.tree import names
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator, Mapping

    from workbook.graph.quantity import Graph
    from workbook.graph.slip import Slip
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask
    from workbook.rehearsal.register import Register
    from workbook.wire.answer import Answer
    from workbook.wire.verdict import Verdict


class Sequel:
    """
    A sheet that holds slips, answered to its end.

    Parameters
    ----------
    case : Case
        The copy of the lab.
    made : mapping of str to Slip
        The slips, by the quantity that each spoils.
    register : Register
        Where the verdicts are counted.
    """

    def __init__(
        self, case: Case, made: Mapping[str, Slip], register: Register
    ) -> None:
        self._case = case
        self._made = made
        self._register = register
        self._tally = register.tally

    def answer(self, chance: random.Random) -> None:
        """
        Answer the whole sheet, and count every verdict.

        Parameters
        ----------
        chance : random.Random
            Decides the habit of whoever answers. Where a slip has no value, nobody
            does.
        """
        mistakes = {name: slip.relation for name, slip in self._made.items()}
        try:
            paper = Paper(self._case, draw_habit(chance), chance, mistakes)
        except ArithmeticError:
            return
        answers = Student(paper, chance).answer_all()
        verdicts = judge_sheet(self._case, answers)
        for ask in self._case.graph.lab.public.asks:
            if ask.id not in verdicts:
                continue
            answer, verdict = answers[ask.id], verdicts[ask.id]
            if not asks_for(ask) & self._made.keys():
                self._follow(ask, (answer, verdict), paper)
                continue
            self._register.judged(answer, verdict)
            if len(self._made) > 1 and ask.of is not None:
                self._name(self._made[ask.of], verdict)

    def _name(self, slip: Slip, verdict: Verdict) -> None:
        is_named = verdict.outcome is Outcome.SLIP
        is_right = is_named and slip.sentence in verdict.sentence
        self._tally.second_named.add(is_hit=is_right)
        self._tally.second_misnamed.add(is_hit=is_named and not is_right)

    def _follow(self, ask: Ask, judged: tuple[Answer, Verdict], paper: Paper) -> None:
        """Count a step that is right by the student's own values."""
        answer, verdict = judged
        behind = set(find_behind(self._case.graph, ask))
        if not behind & self._made.keys():
            self._register.expect_right(ask, answer, verdict)
            return
        self._register.judged(answer, verdict)
        if not all(self._could_be(name, paper) for name in behind):
            self._tally.stopped += 1
            return
        earns = verdict.value_holds and verdict.method_holds is not False
        self._tally.followed.add(is_hit=earns)
        if not earns:
            slips = " ".join(sorted(behind & self._made.keys()))
            self._register.miss("not followed", ask.id, slips, judged)

    def _could_be(self, name: str, paper: Paper) -> bool:
        quantity = self._case.graph.quantities[name]
        value, true = float(paper.carried(name)), self._case.values[name]
        return is_possible(quantity, value, true)


def asks_for(ask: Ask) -> set[str]:
    """
    Return the quantities that a step asks for.

    Parameters
    ----------
    ask : Ask
        Any step.

    Returns
    -------
    set of str
        Several for a table, none for a choice.
    """
    cells = ask.form.cells if isinstance(ask.form, TableForm) else ()
    return {cell.of for cell in cells} | ({ask.of} if ask.of else set())


def find_behind(graph: Graph, ask: Ask) -> Iterator[str]:
    """
    Give every asked quantity that a step rests on.

    Parameters
    ----------
    graph : Graph
        The lab.
    ask : Ask
        Any step.

    Returns
    -------
    iterator of str
        Each once; what lies behind a reading is left out.
    """
    asked = graph.lab.public.asked
    waiting = list(graph.lab.key.limiting.get(ask.id, {}).values())
    for each in asks_for(ask):
        relation = graph.quantities[each].relation
        waiting += names(relation) if relation is not None else ()
    seen: set[str] = set()
    while waiting:
        name = waiting.pop()
        inner = graph.quantities[name]
        if name in seen or inner.instrument is not None:
            continue
        seen.add(name)
        if name in asked:
            yield name
        waiting += names(inner.relation) if inner.relation is not None else ()
