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
from math import comb, isnan, prod
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from workbook.report.cohort import find_pace
from workbook.report.fact import NEVER
from workbook.report.frame import fill_page

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from workbook.report.cohort import Cohort
    from workbook.report.fact import Fact

#: So many wrong answers must be the right ones of one and the same other student [-];
#: a single one happens in every large class.
_SHARED = 2
#: They are told if chance would give a student fewer such others than this in a class
#: of the size [-].
_FEW = 0.05
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


def find_signals(cohort: Cohort) -> list[Signal]:
    """
    Return what is worth a question in the hand-ins to one lab.

    Parameters
    ----------
    cohort : Cohort
        The hand-ins.

    Returns
    -------
    list of Signal
        By student.
    """
    found = [*_find_borrowed(cohort), *_find_equal(cohort), *_find_times(cohort)]
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


def _find_borrowed(cohort: Cohort) -> Iterator[Signal]:
    """Find wrong answers that are right for one other student."""
    wrong = _find_wrong(cohort.table)
    shelves = [_Shelf(column) for column in cohort.table["right"].T]
    for one in np.flatnonzero(wrong.sum(axis=1) >= _SHARED).tolist():
        row, places = cohort.table[one], np.flatnonzero(wrong[one]).tolist()
        chances = {each: shelves[each].chance(row[each]) for each in places}
        # With fewer steps in common it is more likely still.
        if not _is_strange(cohort, chances.values()):
            continue
        shared: dict[int, list[int]] = defaultdict(list)
        for place in places:
            for other in shelves[place].match(row[place]):
                shared[other].append(place)
        for other, steps in shared.items():
            is_told = other != one and len(steps) >= _SHARED
            if is_told and _is_strange(cohort, map(chances.__getitem__, steps)):
                yield _tell(
                    (cohort.facts[one], cohort.facts[other]),
                    "right for another",
                    [cohort.steps[step] for step in steps],
                    "{steps} do not fit the student's own sheet, and are what is right "
                    "on the sheet of {other}.",
                )


def _is_strange(cohort: Cohort, chances: Iterable[float]) -> bool:
    """Tell whether chance would hardly find such another for a student."""
    return (len(cohort.facts) - 1) * prod(chances) < _FEW


def _find_wrong(rows: NDArray[np.void]) -> NDArray[np.bool_]:
    found: NDArray[np.bool_] = ~np.isnan(rows["typed"]) & ~rows["is_right"]
    return found


class _Shelf:
    """The right values of a step in a class, in the order of their size."""

    def __init__(self, rights: NDArray[np.float64]) -> None:
        self._order = np.argsort(rights, kind="stable")
        self._sizes = rights[self._order]
        known = self._sizes[~np.isnan(self._sizes)]
        self._spread = float(known[-1] - known[0]) if known.size else 0.0

    def chance(self, row: np.void) -> float:
        """Return how often another's right value lies that near by chance."""
        return 1 / (1 + self._spread / (2 * float(row["half"])))

    def match(self, row: np.void) -> list[int]:
        """List whose right value lies within half a unit of what was typed."""
        # A reading lies on a grid: what is typed of it agrees to the last bits.
        near, typed = row["half"] * (1 + 1e-9), row["typed"]
        # Wider by a hair than the comparison itself, which decides.
        ends = typed + near * np.array([-1 - 1e-9, 1 + 1e-9])
        low, high = np.searchsorted(self._sizes, ends, side="left")
        high = min(high + 1, self._sizes.size)
        is_near = np.abs(self._sizes[low:high] - typed) <= near
        found: list[int] = self._order[low:high][is_near].tolist()
        return found


def _find_equal(cohort: Cohort) -> Iterator[Signal]:
    """Find readings that two students have in common to the last digit."""
    number = len(cohort.facts)
    chances = {step: _guess_chance(cohort.column(step)) for step in cohort.readings}
    same = {step: _sort_typed(cohort.column(step)) for step in cohort.readings}
    wrong = {s: _find_wrong(cohort.column(s)).tolist() for s in cohort.readings}
    for one in range(number):
        own = [step for step in cohort.readings if wrong[step][one]]
        # Of a pair at least one reading is wrong in each step.
        if not own or not _is_rare(number, chances, own):
            continue
        for other, steps in _pair(cohort, one, own, same, wrong).items():
            if _is_rare(number, chances, steps):
                yield _tell(
                    (cohort.facts[one], cohort.facts[other]),
                    "equal readings",
                    steps,
                    "{steps} agree with those of {other} to the last digit, though "
                    "their instruments show other values.",
                )


def _is_rare(number: int, chances: Mapping[str, float], steps: Iterable[str]) -> bool:
    """Tell whether chance would hardly make one such pair in a class of the size."""
    return comb(number, 2) * prod(chances[step] for step in steps) < _RARE


def _guess_chance(column: NDArray[np.void]) -> float:
    """Return how often two students of the class share a reading by chance."""
    halves = column["half"][~np.isnan(column["half"])]
    rights = column["right"]
    # Readings of the students' own benches have no right value, and are shared.
    if not halves.size or np.isnan(rights).all():
        return 1.0
    spread = float(np.nanmax(rights) - np.nanmin(rights))
    return 1 / (1 + spread / (2 * float(halves.min())))


def _sort_typed(column: NDArray[np.void]) -> dict[float, list[int]]:
    """Sort students by what they typed."""
    same: dict[float, list[int]] = defaultdict(list)
    for index, typed in enumerate(column["typed"].tolist()):
        if not isnan(typed):
            same[round(typed, 9)].append(index)
    return same


def _pair(
    cohort: Cohort,
    one: int,
    own: Iterable[str],
    same: Mapping[str, Mapping[float, Sequence[int]]],
    wrong: Mapping[str, Sequence[bool]],
) -> dict[int, list[str]]:
    """Find who shares a student's wrong readings; a pair of wrong ones is told once."""
    found: dict[int, list[str]] = defaultdict(list)
    for step in own:
        typed = round(float(cohort.column(step)["typed"][one]), 9)
        for other in same[step][typed]:
            if one != other and not (wrong[step][other] and other < one):
                found[other].append(step)
    return found


def _find_times(cohort: Cohort) -> Iterator[Signal]:
    pace = find_pace(cohort)
    is_quick = pace.gaps < _QUICK_S
    handed_in = np.array([[fact.handed_in] for fact in cohort.facts]).reshape(-1, 1)
    is_after = (handed_in != NEVER) & (cohort.table["at"] > handed_in)
    for index, fact in enumerate(cohort.facts):
        order = pace.order[index].tolist()
        quick = [
            cohort.steps[place]
            for place, is_one in zip(order[1:], is_quick[index].tolist(), strict=True)
            if is_one
        ]
        if len(quick) >= _QUICK:
            what = f"{len(quick)} answers came less than {_QUICK_S} s after another."
            yield _tell((fact, None), "quick answers", quick, what)
        after = [cohort.steps[place] for place in order if is_after[index, place]]
        if after:
            what = "{steps} bear a time after that of the hand-in."
            yield _tell((fact, None), "times out of order", after, what)


def _tell(
    who: tuple[Fact, Fact | None], kind: str, steps: Sequence[str], what: str
) -> Signal:
    fact, other = who
    name = other.student if other is not None else ""
    places: Mapping[str, str] = {"steps": ", ".join(steps), "other": name}
    return Signal(
        lab=fact.lab,
        student=fact.student,
        other=name,
        kind=kind,
        steps=tuple(steps),
        what=what.format_map(places),
    )
