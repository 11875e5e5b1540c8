"""What the report on a class needs of one hand-in, and of the values it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from workbook.graph.quantity import Origin
from workbook.judge.choice import limiting_reagent
from workbook.judge.typed import Typing, read_typed
from workbook.measure.units import PERCENT
from workbook.wire.answer import Built, Derived, Noted, Typed
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from workbook.graph.quantity import Graph, Quantity
    from workbook.judge.case import Case
    from workbook.marking.result import SheetMark, StepMark

#: What is kept of one step of a hand-in; a class lies side by side in an array of it.
STEP = np.dtype(
    [
        # The place in `STANDINGS`; `ABSENT` where the marks have no such step.
        ("standing", np.int8),
        ("attempts", np.int32),
        # When it was answered, as `count_time` says; or `NEVER`.
        ("at", np.int64),
        # What was typed, and half a unit in its last place, in the step's unit; not a
        # number where nothing can be read.
        ("typed", np.float64),
        ("half", np.float64),
        # Whether the value holds, or follows.
        ("is_right", np.bool_),
        # The right value, in the step's unit; not a number where there is none.
        ("right", np.float64),
    ]
)

#: No such step, and no time.
ABSENT, NEVER = -1, np.iinfo(np.int64).min

_EPOCH, _TICK = datetime(1970, 1, 1, tzinfo=UTC), timedelta(microseconds=1)


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


#: In the order in which `STEP` numbers them.
STANDINGS = tuple(Standing)

_CODES = {standing: code for code, standing in enumerate(STANDINGS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One hand-in, in little room."""

    student: str
    lab: str
    #: What counts, what the lab is worth, and what of that no person has yet to give
    #: [point].
    points: float
    out_of: float
    ripe: float
    #: When it came in, as `count_time` says; or `NEVER`.
    handed_in: int
    #: Each step of the lab, in its order: (n_steps,) of `STEP`.
    steps: NDArray[np.void]
    #: Each mistake that was recognised: step and sentence.
    slips: tuple[tuple[str, str], ...]
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
        Small: it keeps nothing of the case, and of the marks no text but slips.
    """
    asks = case.graph.lab.public.asks
    fact = sum_up(mark, tuple(ask.id for ask in asks), dict(_list_features(case)))
    marked = {step.step: step for step in mark.steps}
    for row, ask in zip(fact.steps, asks, strict=True):
        if ask.of is None or ask.id not in marked:
            continue
        quantity = case.graph.quantities[ask.of]
        row["right"] = quantity.from_base(case.values[quantity.name])
        typed = _read(case, quantity, marked[ask.id])
        if typed is not None:
            row["typed"], row["half"] = typed
    return fact


def sum_up(
    mark: SheetMark, steps: tuple[str, ...], features: Mapping[str, str]
) -> Fact:
    """
    Return what marks alone say of a hand-in.

    Parameters
    ----------
    mark : SheetMark
        The marks.
    steps : tuple of str
        The steps of the lab, in its order.
    features : mapping of str to str
        In which group a variant falls.

    Returns
    -------
    Fact
        Without what was typed, and what is right.
    """
    rows = np.zeros(len(steps), STEP)
    rows["standing"], rows["at"] = ABSENT, NEVER
    rows["typed"] = rows["half"] = rows["right"] = np.nan
    slips = []
    marked = {step.step: step for step in mark.steps}
    for row, name in zip(rows, steps, strict=True):
        step = marked.get(name)
        if step is None:
            continue
        row["standing"] = _CODES[stand(step.verdict)]
        row["attempts"] = step.attempts
        row["at"] = count_time(step.at)
        row["is_right"] = step.verdict.value_holds
        if step.outcome is Outcome.SLIP:
            slips.append((name, step.verdict.sentence))
    return Fact(
        student=mark.student,
        lab=mark.lab,
        points=float(mark.points),
        out_of=float(mark.out_of),
        ripe=float(sum(step.out_of for step in mark.steps if not step.waits)),
        handed_in=count_time(mark.handed_in),
        steps=rows,
        slips=tuple(slips),
        features=features,
    )


def count_time(at: datetime | None) -> int:
    """
    Return a time as a number.

    Parameters
    ----------
    at : datetime or None
        With its time zone.

    Returns
    -------
    int
        Since the beginning of 1970 [µs]; `NEVER` for None.

    Examples
    --------
    >>> count_time(datetime(1970, 1, 1, 0, 0, 2, tzinfo=UTC))
    2000000
    """
    return NEVER if at is None else (at - _EPOCH) // _TICK


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


def find_readings(graph: Graph) -> list[str]:
    """
    Return the steps that are readings of an instrument that is drawn.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    list of str
        In their order.
    """
    return [
        ask.id
        for ask in graph.lab.public.asks
        if ask.of is not None and graph.quantities[ask.of].origin is Origin.READING
    ]


def _is_yield(quantity: Quantity) -> bool:
    is_share = quantity.unit.dimension == PERCENT.dimension
    return is_share and quantity.plausible is not None


def _read(case: Case, quantity: Quantity, step: StepMark) -> tuple[float, float] | None:
    """Return what was typed for a step, in the unit that is asked, and its half."""
    if not isinstance(step.answer, Typed | Built | Derived | Noted):
        return None
    typing = read_typed(case, quantity, step.answer.text)
    if not isinstance(typing, Typing):
        return None
    half = typing.half / float(quantity.unit.factor)
    return quantity.from_base(typing.value), half


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
