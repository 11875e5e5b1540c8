"""
From a student's standing answers to verdicts: the one way, live and in bulk.

Each step is held against the student's own earlier values. One that is asked for alone
is judged with what it rests on, a whole sheet in the order in which its quantities
follow from each other.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.judge.algebra import judge_lines
from workbook.judge.band import widening
from workbook.judge.chain import judge_chain
from workbook.judge.diagnosis import explain
from workbook.judge.footing import Footing, asks_of
from workbook.judge.form import Stands, judge_form
from workbook.judge.pad import Pad
from workbook.judge.pieces import Pieces
from workbook.judge.table import list_cells
from workbook.judge.typed import coarsest
from workbook.judge.working import Working, join
from workbook.labfile.offer import offers
from workbook.wire.answer import Built, Derived
from workbook.wire.verdict import NO_ATTEMPT, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph
    from workbook.graph.span import Span
    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.judge.value import Judgement
    from workbook.labfile.half import Ask
    from workbook.wire.answer import Answer


@lru_cache(maxsize=1024)
def _factor_labels(graph: Graph, step: str) -> Mapping[str, str]:
    """Return what each factor is called that a chain step offers."""
    public = graph.lab.public
    ask = next(each for each in public.asks if each.id == step)
    return {each.id: each.label for each in offers(public, ask, graph.weights)}


def judge(case: Case, step: str, answers: Mapping[str, Answer]) -> Verdict:
    """
    Return the verdict on one step.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    step : str
        The step that is judged.
    answers : mapping of str to Answer
        The standing answers of the whole sheet, this step's among them.

    Returns
    -------
    Verdict
        The same that `judge_sheet` gives.

    Raises
    ------
    KeyError
        If the lab has no such step, or it is not answered.
    """
    return SheetJudge(case, answers).verdict(step)


def judge_sheet(case: Case, answers: Mapping[str, Answer]) -> dict[str, Verdict]:
    """
    Return the verdict on every step that is answered.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    answers : mapping of str to Answer
        The standing answers, by step; steps that the lab does not have are left
        aside.

    Returns
    -------
    dict of str to Verdict
        By step.
    """
    return SheetJudge(case, answers).verdicts


class SheetJudge:
    """
    One sheet on its way through the judge.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    answers : mapping of str to Answer
        The standing answers, by step.
    """

    def __init__(self, case: Case, answers: Mapping[str, Answer]) -> None:
        self._footing = Footing(case, answers)
        self._case = self._footing.case
        self._answers = answers

    @cached_property
    def verdicts(self) -> dict[str, Verdict]:
        """What is said of each answered step."""
        asks = self._case.graph.lab.public.asks
        steps = {ask.id for ask in asks}
        found = {
            ask.id: self._judge_standing(name)
            for name, ask in asks_of(self._case.graph).items()
            if ask.id in steps and self._footing.judgement(name) is not None
        }
        for ask in asks:
            if ask.of is None and (answer := self._answers.get(ask.id)) is not None:
                found[ask.id] = self._judge_form(ask, answer)
        return found

    def verdict(self, step: str) -> Verdict:
        """
        Return what is said of one step.

        Parameters
        ----------
        step : str
            Its id.

        Returns
        -------
        Verdict
            The same as among all verdicts, without the work for the others.

        Raises
        ------
        KeyError
            If the lab has no such step, or it is not answered.
        """
        asks = {ask.id: ask for ask in self._case.graph.lab.public.asks}
        ask, answer = asks[step], self._answers[step]
        if ask.of is None:
            return self._judge_form(ask, answer)
        return self._judge_standing(ask.of)

    def retry(self, ask: Ask, answer: Answer) -> Verdict:
        """
        Return the verdict on another answer to one step, all others left as they are.

        Parameters
        ----------
        ask : Ask
            A step of the sheet that asks for a quantity.
        answer : Answer
            In place of the one that stands, if any.

        Returns
        -------
        Verdict
            The same that `judge` gives once the answer stands on the sheet.

        Raises
        ------
        ValueError
            If the step asks for no quantity: it may rest on the whole sheet.
        """
        if ask.of is None:
            msg = f"{ask.id!r} asks for no quantity."
            raise ValueError(msg)
        judgement = self._judge(ask.of, ask, answer)
        return self._explain(ask.of, judgement)

    def is_attempt(self, ask: Ask, answer: Answer) -> bool:
        """
        Tell whether another answer to a step is an attempt, all others left alone.

        Parameters
        ----------
        ask : Ask
            A step of the sheet.
        answer : Answer
            In place of the one that stands, if any.

        Returns
        -------
        bool
            False for what can't be read, or is too coarse to tell.
        """
        if ask.of is None:
            verdict = self._judge_form(ask, answer)
        else:
            verdict = self._judge(ask.of, ask, answer).verdict
        return verdict.outcome not in NO_ATTEMPT

    def accepted(self, name: str) -> tuple[Span, ...]:
        """
        Return where an answer with as many digits as the given one is accepted.

        Parameters
        ----------
        name : str
            A quantity.

        Returns
        -------
        tuple of Span
            In base units; of a value that may follow from the readings or from the
            student's own answers both, none where no value was read.
        """
        if name not in self._case.graph.quantities:
            return ()
        judgement = self._footing.judgement(name)
        if judgement is None or judgement.typing is None:
            return ()
        quantity, typing = self._case.graph.quantities[name], judgement.typing
        sound, own = self.stands(name)
        extra = widening(self._case, quantity, typing.value)
        if quantity.origin is Origin.READING:
            return (sound.span.widened(extra),)
        stands = (own,) if own.fault is None else (sound, own)
        half = coarsest(typing.ways).half
        return tuple(each.span.widened(half + extra) for each in stands)

    def stands(self, name: str) -> tuple[Own, Own]:
        """
        Return where the student stands with a quantity before they answer it.

        Parameters
        ----------
        name : str
            The quantity.

        Returns
        -------
        (Own, Own)
            By accepted readings alone, and by the student's own answers.
        """
        return self._footing.before(name)

    def _judge_form(self, ask: Ask, answer: Answer) -> Verdict:
        cells = self._judge_cells(ask)
        return judge_form(self._case, ask, answer, Stands(self._footing, cells))

    def _judge_cells(self, ask: Ask) -> dict[str, Verdict]:
        """Return what is said of each cell of a table that is not empty."""
        return {
            cell.id: self._judge_standing(name)
            for name, cell in list_cells((ask,)).items()
            if self._footing.judgement(name) is not None
        }

    def _judge_standing(self, name: str) -> Verdict:
        """Return the verdict on the answer that stands for a quantity."""
        ask = asks_of(self._case.graph)[name]
        judgement = self._footing.judgement(name)
        if judgement is None:
            raise KeyError(ask.id)
        answer = self._footing.answers[ask.id]
        return self._explain(name, self._join(name, ask, answer, judgement))

    def _judge(self, name: str, ask: Ask, answer: Answer) -> Judgement:
        judgement = self._footing.judge(name, answer)
        return self._join(name, ask, answer, judgement)

    def _join(self, name: str, ask: Ask, answer: Answer, found: Judgement) -> Judgement:
        """Judge the working as well, where a result that was worked out is read."""
        is_read = found.verdict.outcome not in NO_ATTEMPT
        if not is_read or not isinstance(answer, Built | Derived):
            return found
        working = self._judge_working(name, ask, answer)
        return replace(found, verdict=join(working, found.verdict))

    def _judge_working(self, name: str, ask: Ask, answer: Built | Derived) -> Working:
        graph = self._case.graph
        public = graph.lab.public
        if isinstance(answer, Built):
            labels = _factor_labels(graph, ask.id)
            relation = graph.lab.key.relations[name]
            return judge_chain(relation, ask.start or "", answer.factors, labels)
        species = name.removesuffix(".molar_mass")
        start = self._footing[f"{public.pads[species].start}.molar_mass"].span
        return judge_lines(Pad(Pieces(graph, species, start)), answer.lines)

    def _explain(self, name: str, judgement: Judgement) -> Verdict:
        """Name the mistake behind a wrong value; it may rest on any other quantity."""
        quantity, stands = self._case.graph.quantities[name], self.stands(name)
        return explain(self._case, quantity, judgement, stands, self._footing)
