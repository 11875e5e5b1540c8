"""
Where a student stands with each quantity of a sheet, worked out when it is asked for.

The student stands with each quantity in two ways: by their *own* answers, right or
wrong; and *soundly*, by what follows from their accepted readings alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

from typing_extensions import override

from workbook.graph.input import behind
from workbook.graph.quantity import Origin
from workbook.judge import words
from workbook.judge.misreading import is_misreading
from workbook.judge.noted import judge_missing, judge_noted, settle
from workbook.judge.own import NOWHERE, Own, own_of
from workbook.judge.reading import judge_reading
from workbook.judge.stand import answered, is_possible, mistaken
from workbook.judge.table import list_cells, spread
from workbook.judge.value import Judgement, judge_value
from workbook.wire.answer import Answer, Built, Derived, Noted, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Graph, Quantity
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask

#: Labs whose asked quantities are kept.
_KEPT = 256

#: Answers that hold a result to read.
_Result = Typed | Noted | Built | Derived

_KINDS = {
    "reading": Typed,
    "own": Noted,
    "number": Typed,
    "chain": Built,
    "algebra": Derived,
}


@lru_cache(maxsize=_KEPT)
def asks_of(graph: Graph) -> Mapping[str, Ask]:
    """
    Return the steps and the cells of tables that ask for a quantity.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    mapping of str to Ask
        By the quantity, each after those that it follows from.
    """
    public = graph.lab.public
    asks = {ask.of: ask for ask in public.asks if ask.of} | list_cells(public.asks)
    return {name: asks[name] for name in graph.quantities if name in asks}


class Footing(Mapping[str, Own]):
    """
    Where a student goes on from each quantity, by their own answers.

    What a quantity rests on is judged before it, and nothing else is: one step of a
    long sheet is judged without the others.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    answers : mapping of str to Answer
        The standing answers, by step.
    """

    def __init__(self, case: Case, answers: Mapping[str, Answer]) -> None:
        #: With the student's own readings in it.
        self.case = settle(case, answers)
        self._asks = asks_of(case.graph)
        #: Those to the cells of tables among them.
        self.answers = spread(case.graph.lab.public.asks, answers)
        self._owns: dict[str, Own] = {}
        self._sounds: dict[str, Own] = {}
        self._before: dict[str, tuple[Own, Own]] = {}
        self._judgements: dict[str, Judgement] = {}

    @override
    def __getitem__(self, name: str) -> Own:
        self._reach(name)
        return self._owns[name]

    @override
    def __iter__(self) -> Iterator[str]:
        return iter(self.case.graph.quantities)

    @override
    def __len__(self) -> int:
        return len(self.case.graph.quantities)

    def before(self, name: str) -> tuple[Own, Own]:
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
        self._reach(name)
        return self._before[name]

    def judgement(self, name: str) -> Judgement | None:
        """
        Return what is said of the value that stands for a quantity.

        Parameters
        ----------
        name : str
            The quantity.

        Returns
        -------
        Judgement or None
            Without its working; None where nothing is answered.
        """
        self._reach(name)
        return self._judgements.get(name)

    def judge(self, name: str, answer: Answer) -> Judgement:
        """
        Return what is said of another value, all others left as they are.

        Parameters
        ----------
        name : str
            A quantity that is asked for.
        answer : Answer
            In place of the one that stands, if any.

        Returns
        -------
        Judgement
            Without its working.
        """
        stands = self.before(name)
        quantity, ask = self.case.graph.quantities[name], self._asks[name]
        return self._judge(quantity, ask, answer, stands)

    def _reach(self, name: str) -> None:
        if name not in self._owns:
            for each in behind(self.case.graph, name):
                if each not in self._owns:
                    self._take(self.case.graph.quantities[each], self._asks.get(each))

    def _take(self, quantity: Quantity, ask: Ask | None) -> None:
        if quantity.name in self.case.missing:
            self._pass_over(quantity, ask)
            return
        own = own_of(self.case, quantity, self._owns)
        sound = own_of(self.case, quantity, self._sounds)
        self._before[quantity.name] = sound, own
        judgement = None
        if ask is not None and (answer := self.answers.get(ask.id)) is not None:
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
        answer = None if ask is None else self.answers.get(ask.id)
        if isinstance(answer, Noted):
            judgement = judge_noted(self.case, quantity, answer)
            self._judgements[quantity.name] = judgement
        elif answer is not None:
            missing = Judgement(judge_missing(self.case))
            self._judgements[quantity.name] = missing

    def _stand(self, quantity: Quantity, own: Own, judgement: Judgement) -> Own | None:
        """Return what later steps follow from; None where follow-through stops."""
        typing, true = judgement.typing, self.case.values[quantity.name]
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
        if isinstance(answer, Noted):
            return judge_noted(self.case, quantity, answer)
        if quantity.origin is Origin.READING:
            return judge_reading(self.case, quantity, answer.text, sound)
        # Own values without a fault are sound, and closer: their rounding is known.
        against = (own,) if own.fault is None else stands
        return judge_value(self.case, quantity, answer.text, against)


def _is_of_kind(answer: Answer, ask: Ask) -> bool:
    return isinstance(answer, _KINDS[ask.kind])


def _is_misread(quantity: Quantity, typed: float, true: float) -> bool:
    instrument = quantity.instrument
    if instrument is None:
        return False
    return is_misreading(
        instrument, quantity.from_base(typed), quantity.from_base(true)
    )
