"""What the report on a class needs of one hand-in, and of the values it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.judge.choice import limiting_reagent
from workbook.judge.typed import Typing, read_typed
from workbook.measure.units import PERCENT
from workbook.wire.answer import Built, Derived, Noted, Typed
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.graph.quantity import Graph, Quantity
    from workbook.judge.case import Case
    from workbook.marking.result import SheetMark, StepMark


class Standing(Enum):
    """What became of a step, in the coarse words of a class."""

    RIGHT = "right"
    FOLLOWED = "followed through"
    SLIPPED = "slipped"
    WRONG = "wrong otherwise"
    WRITTEN = "for a person"
    BLANK = "blank"


#: Outcomes that say it all; of the others it depends on whether the value holds.
_WORDS = {
    **dict.fromkeys(NO_ATTEMPT, Standing.BLANK),
    Outcome.KEPT: Standing.WRITTEN,
    Outcome.SLIP: Standing.SLIPPED,
    Outcome.COMMITTED: Standing.RIGHT,
}


@dataclass(frozen=True, slots=True)
class Figure:
    """A value that was typed for a step, beside the right one, in the step's unit."""

    typed: float
    #: Half a unit in the last place that was typed.
    half: float
    #: Whether the value holds, or follows.
    is_right: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One hand-in."""

    mark: SheetMark
    #: Each yield that was answered, by step [%].
    yields: Mapping[str, float]
    #: What was typed for each step that asks for a quantity.
    figures: Mapping[str, Figure]
    #: The right value of each such step, in its unit.
    right: Mapping[str, float]
    #: The steps that are readings.
    readings: tuple[str, ...]
    #: In which group a variant falls, by what sets variants apart.
    features: Mapping[str, str]


def find_fact(mark: SheetMark, case: Case) -> Fact:
    """
    Return what the report on a class needs of one hand-in.

    Parameters
    ----------
    mark : SheetMark
        Its marks.
    case : Case
        The same student's copy of the lab.

    Returns
    -------
    Fact
        Small: it keeps nothing of the case.
    """
    steps = {step.step: step for step in mark.steps}
    asked = {
        ask.id: case.graph.quantities[ask.of]
        for ask in case.graph.lab.public.asks
        if ask.of is not None and ask.id in steps
    }
    figures = {
        step: figure
        for step, quantity in asked.items()
        if (figure := _read(case, quantity, steps[step])) is not None
    }
    return Fact(
        mark=mark,
        yields={s: figures[s].typed for s in find_yields(case.graph) if s in figures},
        figures=figures,
        right={s: q.from_base(case.values[q.name]) for s, q in asked.items()},
        readings=tuple(s for s, q in asked.items() if q.origin is Origin.READING),
        features=dict(_list_features(case)),
    )


def stand(verdict: Verdict) -> Standing:
    """
    Return the coarse word for what became of a step.

    Parameters
    ----------
    verdict : Verdict
        What the judge says.

    Returns
    -------
    Standing
        A right value with wrong figures is right.
    """
    if verdict.outcome in _WORDS:
        return _WORDS[verdict.outcome]
    if verdict.value_holds:
        return Standing.FOLLOWED if verdict.follows else Standing.RIGHT
    return Standing.WRONG


def find_yields(graph: Graph) -> list[str]:
    """
    Return the steps that ask for a yield whose range the lab knows.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    list of str
        Steps that ask for a percentage with a plausible range, in their order.
    """
    return [
        ask.id
        for ask in graph.lab.public.asks
        if ask.of is not None and _is_yield(graph.quantities[ask.of])
    ]


def _is_yield(quantity: Quantity) -> bool:
    is_share = quantity.unit.dimension == PERCENT.dimension
    return is_share and quantity.plausible is not None


def _read(case: Case, quantity: Quantity, step: StepMark) -> Figure | None:
    """Return what was typed for a step, in the unit that is asked."""
    if not isinstance(step.answer, Typed | Built | Derived | Noted):
        return None
    typing = read_typed(case, quantity, step.answer.text)
    if not isinstance(typing, Typing):
        return None
    half = typing.half / float(quantity.unit.factor)
    typed = quantity.from_base(typing.value)
    return Figure(typed, half, is_right=step.verdict.value_holds)


def _list_features(case: Case) -> Iterator[tuple[str, str]]:
    """Name what sets a variant apart that a student could see or feel."""
    public, key = case.graph.lab.public, case.graph.lab.key
    for ask in public.asks:
        if ask.id in key.limiting:
            reagent = limiting_reagent(case, ask.id, case.values)
            yield f"what runs out first ({ask.id})", public.species[reagent].name
    for quantity in case.graph.quantities.values():
        is_shown = quantity.origin in {Origin.GIVEN, Origin.READING}
        if is_shown and quantity.draw is not None:
            half = "upper half" if _is_upper(case, quantity) else "lower half"
            yield public.labels[quantity.name].text, half


def _is_upper(case: Case, quantity: Quantity) -> bool:
    draw = quantity.draw
    if draw is None:
        return False
    middle = float(draw.low + draw.high) / 2 * float(draw.unit.factor)
    return case.values[quantity.name] > middle + float(draw.unit.offset)
