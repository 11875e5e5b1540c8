"""
From a student's standing answers to verdicts: the one way, live and in bulk.

A sheet is judged whole, in the order in which its quantities follow from each
other, so that each step is held against the student's own earlier values.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.judge import words
from workbook.judge.algebra import judge_lines
from workbook.judge.band import widening
from workbook.judge.chain import judge_chain
from workbook.judge.diagnosis import explain
from workbook.judge.form import Stands, judge_form
from workbook.judge.misreading import is_misreading
from workbook.judge.noted import judge_missing, judge_noted, settle
from workbook.judge.own import NOWHERE, Own, own_of
from workbook.judge.pad import Pad
from workbook.judge.pieces import Pieces
from workbook.judge.reading import judge_reading
from workbook.judge.stand import answered, is_possible, mistaken
from workbook.judge.table import list_cells, spread
from workbook.judge.typed import coarsest
from workbook.judge.value import Judgement, judge_value
from workbook.judge.working import Working, join
from workbook.labfile.offer import offers
from workbook.wire.answer import Answer, Built, Derived, Noted, Typed
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph, Quantity
    from workbook.graph.span import Span
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask

#: Answers that hold a result to read.
_Result = Typed | Noted | Built | Derived

_KINDS = {
    "reading": Typed,
    "own": Noted,
    "number": Typed,
    "chain": Built,
    "algebra": Derived,
}


def _is_of_kind(answer: Answer, ask: Ask) -> bool:
    return isinstance(answer, _KINDS[ask.kind])


@lru_cache(maxsize=1024)
def _factor_labels(graph: Graph, step: str) -> Mapping[str, str]:
    """Return what each factor is called that a chain step offers."""
    public = graph.lab.public
    ask = next(each for each in public.asks if each.id == step)
    return {each.id: each.label for each in offers(public, ask, graph.weights)}


def _is_misread(quantity: Quantity, typed: float, true: float) -> bool:
    instrument = quantity.instrument
    if instrument is None:
        return False
    return is_misreading(
        instrument, quantity.from_base(typed), quantity.from_base(true)
    )


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
    return SheetJudge(case, answers).verdicts


class SheetJudge:
    """
    One sheet on its way through the judge.

    The student stands with each quantity in two ways: by their *own* answers, right
    or wrong; and *soundly*, by what follows from their accepted readings alone.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    answers : mapping of str to Answer
        The standing answers, by step.
    """

    def __init__(self, case: Case, answers: Mapping[str, Answer]) -> None:
        self._case = case = settle(case, answers)
        public = case.graph.lab.public
        self._answers = spread(public.asks, answers)
        self._owns: dict[str, Own] = {}
        self._sounds: dict[str, Own] = {}
        self._before: dict[str, tuple[Own, Own]] = {}
        self._judgements: dict[str, Judgement] = {}
        #: What is said of each answered step.
        self.verdicts: dict[str, Verdict] = {}
        cells = list_cells(public.asks)
        asks = {ask.of: ask for ask in public.asks if ask.of} | cells
        for quantity in case.graph.quantities.values():
            self._take(quantity, asks.get(quantity.name))
        for name, judgement in self._judgements.items():
            quantity = case.graph.quantities[name]
            self.verdicts[asks[name].id] = self._explain(quantity, judgement)
        said = {
            c.id: self.verdicts.pop(c.id)
            for c in cells.values()
            if c.id in self.verdicts
        }
        self._rest = Stands(self._owns, said)
        for ask in public.asks:
            answer = answers.get(ask.id)
            if ask.of is None and answer is not None:
                self.verdicts[ask.id] = judge_form(case, ask, answer, self._rest)

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
        quantity = self._case.graph.quantities[ask.of]
        judgement = self._judge(quantity, ask, answer, self._before[ask.of])
        return self._explain(quantity, judgement)

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
            verdict = judge_form(self._case, ask, answer, self._rest)
        else:
            quantity = self._case.graph.quantities[ask.of]
            stands = self._before[ask.of]
            verdict = self._judge(quantity, ask, answer, stands).verdict
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
        judgement = self._judgements.get(name)
        if judgement is None or judgement.typing is None:
            return ()
        quantity, typing = self._case.graph.quantities[name], judgement.typing
        sound, own = self._before[name]
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
        return self._before[name]

    def _take(self, quantity: Quantity, ask: Ask | None) -> None:
        if quantity.name in self._case.missing:
            self._pass_over(quantity, ask)
            return
        own = own_of(self._case, quantity, self._owns)
        sound = own_of(self._case, quantity, self._sounds)
        self._before[quantity.name] = sound, own
        judgement = None
        if ask is not None and (answer := self._answers.get(ask.id)) is not None:
            judgement = self._judge(quantity, ask, answer, (sound, own))
            self._judgements[quantity.name] = judgement
        if quantity.origin is Origin.DERIVED:
            self._sounds[quantity.name] = sound.rounded()
            # Follow-through stops at a step that is not answered.
            missing = own.rounded() if ask is None else sound.rounded()
        else:
            held = judgement.held[0] if judgement and judgement.held else sound
            self._sounds[quantity.name] = missing = held
        stand = self._stand(quantity, own, judgement) if judgement else None
        self._owns[quantity.name] = stand or missing

    def _pass_over(self, quantity: Quantity, ask: Ask | None) -> None:
        """Let follow-through stop where a reading of the student's own is missing."""
        self._before[quantity.name] = NOWHERE, NOWHERE
        self._sounds[quantity.name] = self._owns[quantity.name] = NOWHERE
        answer = None if ask is None else self._answers.get(ask.id)
        if isinstance(answer, Noted):
            judgement = judge_noted(self._case, quantity, answer)
        else:
            judgement = Judgement(judge_missing(self._case))
        if answer is not None:
            self._judgements[quantity.name] = judgement

    def _stand(self, quantity: Quantity, own: Own, judgement: Judgement) -> Own | None:
        """Return what later steps follow from; None where follow-through stops."""
        typing, true = judgement.typing, self._case.values[quantity.name]
        if typing is None or not is_possible(quantity, typing.value, true):
            return None
        is_read = quantity.origin is Origin.READING
        if judgement.held:
            return judgement.held[0] if is_read else answered(judgement.held, typing)
        if is_read and not _is_misread(quantity, typing.value, true):
            return None
        return mistaken(own, quantity.name, typing)

    def _judge(
        self, quantity: Quantity, ask: Ask, answer: Answer, stands: tuple[Own, Own]
    ) -> Judgement:
        sound, own = stands
        if not isinstance(answer, _Result) or not _is_of_kind(answer, ask):
            return Judgement(Verdict(Outcome.UNREAD, words.OTHER_KIND))
        if quantity.origin is Origin.READING:
            return self._judge_reading(quantity, answer, sound)
        # Own values without a fault are sound, and closer: their rounding is known.
        against = (own,) if own.fault is None else stands
        judgement = judge_value(self._case, quantity, answer.text, against)
        if judgement.verdict.outcome in NO_ATTEMPT or isinstance(answer, Typed | Noted):
            return judgement
        working = self._judge_working(quantity, ask, answer)
        verdict = join(working, judgement.verdict)
        return Judgement(verdict, judgement.typing, judgement.held)

    def _judge_reading(
        self, quantity: Quantity, answer: _Result, shown: Own
    ) -> Judgement:
        if isinstance(answer, Noted):
            return judge_noted(self._case, quantity, answer)
        return judge_reading(self._case, quantity, answer.text, shown)

    def _explain(self, quantity: Quantity, judgement: Judgement) -> Verdict:
        """Name the mistake behind a wrong value; it may rest on any other quantity."""
        stands = self._before[quantity.name]
        return explain(self._case, quantity, judgement, stands, self._owns)

    def _judge_working(
        self, quantity: Quantity, ask: Ask, answer: Built | Derived
    ) -> Working:
        graph = self._case.graph
        public = graph.lab.public
        if isinstance(answer, Built):
            labels = _factor_labels(graph, ask.id)
            relation = graph.lab.key.relations[quantity.name]
            return judge_chain(relation, ask.start or "", answer.factors, labels)
        species = quantity.name.removesuffix(".molar_mass")
        start = self._owns[f"{public.pads[species].start}.molar_mass"].span
        return judge_lines(Pad(Pieces(graph, species, start)), answer.lines)
