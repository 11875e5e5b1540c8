"""The figures of a class: for each step what became of it, and what stands out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import TYPE_CHECKING

from workbook.report.fact import Standing, stand
from workbook.report.share import CONFIDENCE, Share, compare
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from workbook.labfile.half import PublicHalf
    from workbook.marking.result import SheetMark
    from workbook.report.fact import Fact

#: Of fewer students than this in a group nothing is said [-].
FEWEST = 5

#: How many slips are listed [-].
_MOST_SLIPS = 10

#: What counts as right when variants are compared.
_SOLVED = {Standing.RIGHT, Standing.FOLLOWED}

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


def tally_steps(public: PublicHalf, facts: Sequence[Fact]) -> list[StepTally]:
    """
    Return what became of each step.

    Parameters
    ----------
    public : PublicHalf
        The lab.
    facts : sequence of Fact
        One for each hand-in.

    Returns
    -------
    list of StepTally
        In the order of the lab.
    """
    gaps: dict[str, list[float]] = {}
    for fact in facts:
        for step, minutes in _measure_gaps(fact.mark):
            gaps.setdefault(step, []).append(minutes)
    tallies = []
    for ask in public.asks:
        marks = [s for f in facts for s in f.mark.steps if s.step == ask.id]
        tried = [mark.attempts for mark in marks if mark.attempts]
        times = gaps.get(ask.id)
        tallies.append(
            StepTally(
                step=ask.id,
                asks=ask.asks,
                counts=Counter(stand(mark.verdict) for mark in marks),
                attempts=median(tried) if tried else None,
                minutes=median(times) if times else None,
            )
        )
    return tallies


def _measure_gaps(mark: SheetMark) -> Iterator[tuple[str, float]]:
    """Give the time from each marked answer to the one after it."""
    timed = sorted((step.at, step.step) for step in mark.steps if step.at is not None)
    for (before, _), (after, step) in pairwise(timed):
        yield step, (after - before).total_seconds() / _SECONDS_PER_MINUTE


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
    counts = Counter(
        (step.step, step.verdict.sentence)
        for fact in facts
        for step in fact.mark.steps
        if step.outcome is Outcome.SLIP
    )
    ranked = sorted(counts.items(), key=lambda each: (-each[1], each[0]))
    return [Slip(asks[s], said, count) for (s, said), count in ranked[:_MOST_SLIPS]]


def contrast_variants(public: PublicHalf, facts: Sequence[Fact]) -> Contrasts:
    """
    Return where variants of one kind came out worse than those of another.

    Parameters
    ----------
    public : PublicHalf
        The lab.
    facts : sequence of Fact
        One for each hand-in.

    Returns
    -------
    Contrasts
        Only differences that chance alone would hardly make: with m comparisons each
        is held to a confidence of 1 - 0.05 / m, after Bonferroni.
    """
    steps = [a for a in public.asks if a.kind not in {"text", "prediction"}]
    split = {name: _split(facts, name) for name in _name_features(facts)}
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
        if (contrast := _contrast(name, (ask.id, ask.asks), groups, confidence))
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


def _split(facts: Iterable[Fact], name: str) -> dict[str, list[Fact]]:
    groups: dict[str, list[Fact]] = {}
    for fact in facts:
        groups.setdefault(fact.features[name], []).append(fact)
    return groups


def _contrast(
    feature: str,
    step: tuple[str, str],
    groups: Mapping[str, Sequence[Fact]],
    confidence: float,
) -> Contrast | None:
    """Return a difference that is more than chance, or None."""
    name, asks = step
    shares = [(group, _solve(facts, name)) for group, facts in groups.items()]
    better, worse = sorted(shares, key=lambda each: -each[1].value)
    low, high = compare(better[1], worse[1], confidence)
    if low <= 0:
        return None
    return Contrast(
        feature=feature, asks=asks, groups=(better, worse), apart=(low, high)
    )


def _solve(facts: Sequence[Fact], step: str) -> Share:
    verdicts = (s.verdict for f in facts for s in f.mark.steps if s.step == step)
    return Share(sum(stand(verdict) in _SOLVED for verdict in verdicts), len(facts))
