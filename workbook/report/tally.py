"""The figures of a class: for each step what became of it, and what stands out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

import numpy as np

from workbook.report.cohort import find_pace
from workbook.report.fact import ABSENT, STANDINGS, Standing
from workbook.report.share import CONFIDENCE, Share, compare

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from numpy.typing import NDArray

    from workbook.labfile.half import Ask, PublicHalf
    from workbook.report.cohort import Cohort
    from workbook.report.fact import Fact

#: Of fewer students than this in a group nothing is said [-].
FEWEST = 5

#: How many slips are listed [-].
_MOST_SLIPS = 10

#: What counts as right when variants are compared.
_SOLVED = [STANDINGS.index(each) for each in (Standing.RIGHT, Standing.FOLLOWED)]

_SECONDS_PER_MINUTE = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class StepTally:
    """What became of one step in a class."""

    step: str
    asks: str
    #: How many hand-ins fall under each word.
    counts: Mapping[Standing, int]
    #: The middle number of attempts of those who made one; None where nobody did [-].
    attempts: float | None
    #: The middle time since the answer before it; None where there is none [min].
    minutes: float | None


@dataclass(frozen=True, slots=True)
class Slip:
    """One mistake that was recognised."""

    asks: str
    sentence: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrast:
    """A step that came out otherwise in two groups of variants."""

    feature: str
    asks: str
    #: Each group with its share right, the better first.
    groups: tuple[tuple[str, Share], tuple[str, Share]]
    #: Between which ends the difference may lie [-].
    apart: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrasts:
    """What a search for harder variants found."""

    found: tuple[Contrast, ...]
    #: How many comparisons were made [-].
    compared: int
    #: Features with too few students in a group to say anything.
    too_few: tuple[str, ...]


def tally_steps(public: PublicHalf, cohort: Cohort) -> list[StepTally]:
    """
    Return what became of each step.

    Parameters
    ----------
    public : PublicHalf
        The lab.
    cohort : Cohort
        The hand-ins.

    Returns
    -------
    list of StepTally
        In the order of the lab.
    """
    pace = find_pace(cohort)
    after, is_timed = pace.order[:, 1:], ~np.isnan(pace.gaps)
    tallies = []
    for place, ask in enumerate(public.asks):
        column = cohort.table[:, place]
        tried = column["attempts"][column["attempts"] > 0].tolist()
        minutes = pace.gaps[is_timed & (after == place)] / _SECONDS_PER_MINUTE
        tallies.append(
            StepTally(
                step=ask.id,
                asks=ask.asks,
                counts=_count(column["standing"]),
                attempts=median(tried) if tried else None,
                minutes=median(minutes.tolist()) if minutes.size else None,
            )
        )
    return tallies


def _count(codes: NDArray[np.int8]) -> Counter[Standing]:
    numbers = np.bincount(codes[codes != ABSENT], minlength=len(STANDINGS)).tolist()
    counts = zip(STANDINGS, numbers, strict=True)
    return Counter({standing: number for standing, number in counts if number})


def list_slips(public: PublicHalf, facts: Iterable[Fact]) -> list[Slip]:
    """
    Return the commonest slips.

    Parameters
    ----------
    public : PublicHalf
        The lab.
    facts : iterable of Fact
        One for each hand-in.

    Returns
    -------
    list of Slip
        The commonest first, at most ten.
    """
    asks = {ask.id: ask.asks for ask in public.asks}
    counts = Counter(slip for fact in facts for slip in fact.slips)
    ranked = sorted(counts.items(), key=lambda each: (-each[1], each[0]))
    return [Slip(asks[s], said, count) for (s, said), count in ranked[:_MOST_SLIPS]]


def contrast_variants(public: PublicHalf, cohort: Cohort) -> Contrasts:
    """
    Return where variants of one kind came out worse than those of another.

    Parameters
    ----------
    public : PublicHalf
        The lab.
    cohort : Cohort
        The hand-ins.

    Returns
    -------
    Contrasts
        Only differences that chance alone would hardly make: with m comparisons each
        is held to a confidence of 1 - 0.05 / m, after Bonferroni.
    """
    steps = [a for a in public.asks if a.kind not in {"text", "prediction"}]
    split = {name: _split(cohort.facts, name) for name in _name_features(cohort.facts)}
    large = {
        name: groups
        for name, groups in split.items()
        if all(len(group) >= FEWEST for group in groups.values())
    }
    compared = len(large) * len(steps)
    confidence = 1 - (1 - CONFIDENCE) / max(compared, 1)
    found = [
        contrast
        for name, groups in large.items()
        for ask in steps
        if (contrast := _contrast(name, ask, _solve(cohort, groups, ask), confidence))
    ]
    few = tuple(sorted(split.keys() - large.keys()))
    return Contrasts(found=tuple(found), compared=compared, too_few=few)


def _name_features(facts: Iterable[Fact]) -> list[str]:
    """List the features in which variants of the class differ, two groups each."""
    groups: dict[str, set[str]] = {}
    for fact in facts:
        for name, group in fact.features.items():
            groups.setdefault(name, set()).add(group)
    return [name for name, found in groups.items() if len(found) == len("ab")]


def _split(facts: Iterable[Fact], name: str) -> dict[str, list[int]]:
    """Sort the places of hand-ins into groups."""
    groups: dict[str, list[int]] = {}
    for place, fact in enumerate(facts):
        groups.setdefault(fact.features[name], []).append(place)
    return groups


def _contrast(
    feature: str, ask: Ask, shares: list[tuple[str, Share]], confidence: float
) -> Contrast | None:
    """Return a difference that is more than chance, or None."""
    better, worse = sorted(shares, key=lambda each: -each[1].value)
    low, high = compare(better[1], worse[1], confidence)
    if low <= 0:
        return None
    return Contrast(
        feature=feature, asks=ask.asks, groups=(better, worse), apart=(low, high)
    )


def _solve(
    cohort: Cohort, groups: Mapping[str, list[int]], ask: Ask
) -> list[tuple[str, Share]]:
    """Return the share of each group that solved a step."""
    is_solved = np.isin(cohort.column(ask.id)["standing"], _SOLVED)
    return [
        (name, Share(int(is_solved[places].sum()), len(places)))
        for name, places in groups.items()
    ]
