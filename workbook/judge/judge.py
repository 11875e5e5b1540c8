"""
From a student's standing answers to verdicts: the one way, live and in bulk.

A sheet is judged whole, in the order in which its quantities follow from each
other, so that each step is held against the student's own earlier values.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.judge import words
from workbook.judge.algebra import Pad, judge_lines
from workbook.judge.chain import judge_chain
from workbook.judge.choice import judge_choice
from workbook.judge.own import (
    Own,
    answered,
    as_read,
    is_possible,
    mistaken,
    own_of,
    rounded,
)
from workbook.judge.value import Judgement, judge_reading, judge_value
from workbook.judge.working import Working, join
from workbook.labfile.offer import offers
from workbook.wire.answer import Answer, Built, Chosen, Derived, Typed
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Quantity
    from workbook.judge.band import Typing
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask

_KINDS = {
    "reading": Typed,
    "number": Typed,
    "chain": Built,
    "algebra": Derived,
    "choice": Chosen,
}


def _is_of_kind(answer: Answer, ask: Ask) -> bool:
    return isinstance(answer, _KINDS[ask.kind])


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
    return judge_sheet(case, answers)[step]


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
    return _SheetJudge(case, answers).verdicts


class _SheetJudge:
    def __init__(self, case: Case, answers: Mapping[str, Answer]) -> None:
        self.case = case
        self.answers = answers
        self.verdicts: dict[str, Verdict] = {}
        self.owns: dict[str, Own] = {}
        self.truths: dict[str, Own] = {}
        asks = {ask.of: ask for ask in case.graph.lab.public.asks if ask.of}
        for quantity in case.graph.quantities.values():
            self._take(quantity, asks.get(quantity.name))
        for ask in case.graph.lab.public.asks:
            answer = answers.get(ask.id)
            if ask.kind == "choice" and answer is not None:
                self.verdicts[ask.id] = self._choice(ask, answer)

    def _take(self, quantity: Quantity, ask: Ask | None) -> None:
        own = own_of(self.case, quantity, self.owns)
        truth = own_of(self.case, quantity, self.truths)
        is_derived = quantity.origin is Origin.DERIVED
        self.truths[quantity.name] = rounded(truth) if is_derived else truth
        self.owns[quantity.name] = rounded(own) if is_derived else own
        answer = self.answers.get(ask.id) if ask else None
        if ask is None or answer is None:
            return
        judgement = self._judge(quantity, ask, answer, own, truth)
        self.verdicts[ask.id] = judgement.verdict
        self.owns[quantity.name] = self._stand(quantity, own, truth, judgement)

    def _judge(
        self, quantity: Quantity, ask: Ask, answer: Answer, own: Own, truth: Own
    ) -> Judgement:
        if not _is_of_kind(answer, ask) or isinstance(answer, Chosen):
            return Judgement(Verdict(Outcome.UNREAD, words.OTHER_KIND))
        if ask.kind == "reading":
            return judge_reading(self.case, quantity, answer.text)
        judgement = judge_value(self.case, quantity, answer.text, own, truth)
        if judgement.verdict.outcome in NO_ATTEMPT or isinstance(answer, Typed):
            return judgement
        working = self._working(quantity, ask, answer)
        return Judgement(join(working, judgement.verdict), judgement.typing)

    def _working(
        self, quantity: Quantity, ask: Ask, answer: Built | Derived
    ) -> Working:
        public = self.case.graph.lab.public
        if isinstance(answer, Built):
            labels = {
                each.id: each.label
                for each in offers(public, ask, self.case.graph.weights)
            }
            relation = self.case.graph.lab.key.relations[quantity.name]
            return judge_chain(relation, ask.start or "", answer.factors, labels)
        species = quantity.name.removesuffix(".molar_mass")
        start = self.owns[f"{public.pads[species].start}.molar_mass"].span
        return judge_lines(Pad(self.case.graph, species, start), answer.lines)

    def _choice(self, ask: Ask, answer: Answer) -> Verdict:
        if not isinstance(answer, Chosen):
            return Verdict(Outcome.UNREAD, words.OTHER_KIND)
        return judge_choice(self.case, ask, answer, self.owns)

    def _stand(
        self, quantity: Quantity, own: Own, truth: Own, judgement: Judgement
    ) -> Own:
        typing = judgement.typing
        holds = judgement.verdict.value_holds
        if quantity.origin is Origin.READING:
            return _stand_at_reading(quantity, own, typing, holds=holds)
        if typing is not None and holds:
            is_true = truth.span.widened(typing.half).holds(typing.value)
            return answered(truth if is_true else own, typing.value, typing.half)
        if typing is not None and is_possible(quantity, typing.value, truth.value):
            return mistaken(own, quantity.name, typing.value, typing.half)
        return rounded(own)


def _stand_at_reading(
    quantity: Quantity, own: Own, typing: Typing | None, *, holds: bool
) -> Own:
    if typing is None or quantity.instrument is None:
        return own
    read = as_read(quantity, typing.value, quantity.instrument.place)
    return read if holds else mistaken(read, quantity.name, typing.value, 0.0)
