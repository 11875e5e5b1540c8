"""
Signals for staff: what is worth a question, and proves nothing.

A signal changes no mark. Values are drawn for each student, so an answer that is right
for somebody else, or a reading that somebody else made, has a story; it may be a
shared bench, a mixed-up sheet, or help that went too far. Ask, and listen.

The limits below are common practice, no source.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise
from math import comb, prod
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from workbook.report.frame import fill_page

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from workbook.report.fact import Fact, Figure

#: So many wrong answers must be the right ones of one and the same other student [-];
#: a single one happens in every large class.
_SHARED = 2
#: Equal readings are told if chance would make fewer such pairs than this in a class
#: of the size [-].
_RARE = 0.01
#: Nobody reads, works and types an answer in less time than this [s].
_QUICK_S = 3
#: So many quick answers are told [-].
_QUICK = 3

_COLUMNS = ("lab", "student", "other", "kind", "steps", "what")

#: What stands over every list of signals.
CAUTION = (
    "Each line starts a conversation. None proves anything, and none has changed a "
    "mark."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """One thing that is worth a question."""

    lab: str
    student: str
    #: Whom it concerns as well; empty for nobody.
    other: str
    kind: str
    steps: tuple[str, ...]
    #: A sentence that accuses nobody.
    what: str


def find_signals(facts: Sequence[Fact]) -> list[Signal]:
    """
    Return what is worth a question in the hand-ins to one lab.

    Parameters
    ----------
    facts : sequence of Fact
        One for each hand-in.

    Returns
    -------
    list of Signal
        By student.
    """
    found = [*_find_borrowed(facts), *_find_equal(facts), *_find_times(facts)]
    return sorted(found, key=lambda each: (each.student, each.kind, each.other))


def tabulate_signals(signals: Iterable[Signal]) -> pd.DataFrame:
    """
    Return a row for each signal.

    Parameters
    ----------
    signals : iterable of Signal
        In the order of the table.

    Returns
    -------
    DataFrame
        (n_signals, 6), all text, with the columns lab, student, other, kind, steps
        and what.
    """
    rows = [
        (each.lab, each.student, each.other, each.kind, " ".join(each.steps), each.what)
        for each in signals
    ]
    return pd.DataFrame(rows, columns=list(_COLUMNS))


def print_signals(course: str, signals: Sequence[Signal]) -> bytes:
    """
    Return the signals as a page.

    Parameters
    ----------
    course : str
        The course's title.
    signals : sequence of Signal
        In the order of the page.

    Returns
    -------
    bytes
        HTML in UTF-8.
    """
    content = {"course": course, "signals": signals, "caution": CAUTION}
    return fill_page("signals.html", content)


def _find_borrowed(facts: Sequence[Fact]) -> Iterator[Signal]:
    """Find wrong answers that are right for one other student."""
    rights = _stack(facts)
    for index, fact in enumerate(facts):
        shared: dict[int, list[str]] = defaultdict(list)
        for step, figure in fact.figures.items():
            if not figure.is_right:
                for other in _match(rights[step], figure):
                    shared[other].append(step)
        for other, steps in shared.items():
            if other != index and len(steps) >= _SHARED:
                yield _tell(
                    (fact, facts[other]),
                    "right for another",
                    steps,
                    "{steps} do not fit the student's own sheet, and are what is right "
                    "on the sheet of {other}.",
                )


def _stack(facts: Sequence[Fact]) -> dict[str, NDArray[np.float64]]:
    """Lay the right values of the class side by side, by step."""
    steps = {step for fact in facts for step in fact.right}
    nothing = float("nan")
    return {
        step: np.array([fact.right.get(step, nothing) for fact in facts])
        for step in steps
    }


def _match(rights: NDArray[np.float64], figure: Figure) -> list[int]:
    # A reading lies on a grid: what is typed of it agrees to the last bits.
    near = figure.half * (1 + 1e-9)
    return np.flatnonzero(np.abs(rights - figure.typed) <= near).tolist()


def _find_equal(facts: Sequence[Fact]) -> Iterator[Signal]:
    """Find readings that two students have in common to the last digit."""
    readings = _list_readings(facts)
    rights = _stack(facts)
    chances = {step: _guess_chance(rights[step], facts, step) for step in readings}
    alike: dict[tuple[int, int], list[str]] = defaultdict(list)
    for step in readings:
        for pair in _pair(facts, step):
            alike[pair].append(step)
    for (one, other), steps in alike.items():
        expected = comb(len(facts), 2) * prod(chances[step] for step in steps)
        if expected < _RARE:
            yield _tell(
                (facts[one], facts[other]),
                "equal readings",
                steps,
                "{steps} agree with those of {other} to the last digit, though their "
                "instruments show other values.",
            )


def _list_readings(facts: Iterable[Fact]) -> list[str]:
    steps: dict[str, None] = {}
    for fact in facts:
        steps |= dict.fromkeys(fact.readings)
    return list(steps)


def _guess_chance(
    rights: NDArray[np.float64], facts: Sequence[Fact], step: str
) -> float:
    """Return how often two students of the class share a reading by chance."""
    halves = [fact.figures[step].half for fact in facts if step in fact.figures]
    # Readings of the students' own benches have no right value, and are shared.
    if not halves or np.isnan(rights).all():
        return 1.0
    spread = float(np.nanmax(rights) - np.nanmin(rights))
    return 1 / (1 + spread / (2 * min(halves)))


def _pair(facts: Sequence[Fact], step: str) -> Iterator[tuple[int, int]]:
    """Give the pairs with equal readings of which one is not that of the instrument."""
    same: dict[float, list[int]] = defaultdict(list)
    for index, fact in enumerate(facts):
        if step in fact.figures:
            same[round(fact.figures[step].typed, 9)].append(index)
    for several in same.values():
        wrong = [i for i in several if not facts[i].figures[step].is_right]
        for one in wrong:
            for other in several:
                if one != other and not (other in wrong and other < one):
                    yield one, other


def _find_times(facts: Iterable[Fact]) -> Iterator[Signal]:
    for fact in facts:
        timed = sorted((s.at, s.step) for s in fact.mark.steps if s.at is not None)
        quick = [
            step
            for (before, _), (after, step) in pairwise(timed)
            if (after - before).total_seconds() < _QUICK_S
        ]
        if len(quick) >= _QUICK:
            what = f"{len(quick)} answers came less than {_QUICK_S} s after another."
            yield _tell((fact, None), "quick answers", quick, what)
        late = fact.mark.handed_in
        after = [step for at, step in timed if late is not None and at > late]
        if after:
            what = "{steps} bear a time after that of the hand-in."
            yield _tell((fact, None), "times out of order", after, what)


def _tell(
    who: tuple[Fact, Fact | None], kind: str, steps: Sequence[str], what: str
) -> Signal:
    fact, other = who
    name = other.mark.student if other is not None else ""
    places: Mapping[str, str] = {"steps": ", ".join(steps), "other": name}
    return Signal(
        lab=fact.mark.lab,
        student=fact.mark.student,
        other=name,
        kind=kind,
        steps=tuple(steps),
        what=what.format_map(places),
    )
