"""What becomes of many draws: how many are refused and why, what none can show."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.fairness import find_extents, never_seen, refuse
from workbook.draw.sample import draw_class, solve_try
from workbook.draw.visibility import asked_quantities, find_twins, see_slips
from workbook.graph.slip import slips_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from workbook.draw.key import CourseKey
    from workbook.graph.compile import Column, CompiledGraph
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import PublicHalf

#: Twins in a smaller share of draws than this are not worth a line [-].
_SELDOM = 0.01


@dataclass(frozen=True, slots=True)
class Review:
    """Many draws of a lab, looked through."""

    name: str
    draws: int
    #: How many draws each rule refused first.
    refused: Mapping[str, int]
    #: Step and kind of each slip that no draw can show.
    never: tuple[tuple[str, str], ...]
    #: Step and kind of each slip that some fair draws give the value of another, and
    #: in what share of them.
    twins: tuple[tuple[str, str, float], ...]
    #: Step and species of each reagent that runs out first in some fair draws, and in
    #: what share of them.
    limits: tuple[tuple[str, str, float], ...] = ()
    #: What share of all draws fell to this variant of the lab.
    share: float = 1.0

    @property
    def fair(self) -> int:
        """How many draws no rule refused."""
        return self.draws - sum(self.refused.values())


def review_draws(
    compiled: CompiledGraph, key: CourseKey, students: Sequence[str]
) -> Review:
    """
    Return what becomes of many draws.

    Parameters
    ----------
    compiled : CompiledGraph
        The lab.
    key : CourseKey
        Any course's secret.
    students : sequence of str
        For whom values are drawn; at least one.

    Returns
    -------
    Review
        Of first tries; a student whose first is refused has further ones.

    Raises
    ------
    DrawError
        If no draw at all is fair.
    """
    graph, count = compiled.graph, len(students)
    solved = solve_try(compiled, key, students, 0)
    reasons = refuse(graph, solved, count)
    fair = np.array([not reason for reason in reasons], dtype=bool)
    if not fair.any():
        draw_class(compiled, key, students[:1])
    never = never_seen(graph)
    unseen = {
        (step, slip.kind.value)
        for step in asked_quantities(graph)
        for slip in slips_of(graph, step)
        if (step, slip.relation) in never
    }
    return Review(
        name=_say_name(graph.lab.public),
        draws=count,
        refused=Counter(filter(None, reasons)),
        never=tuple(sorted(unseen)),
        twins=tuple(
            twin
            for twin in sorted(_twins(graph, solved, fair))
            if twin[:2] not in unseen
        ),
        limits=tuple(_limits(graph, solved, fair)),
    )


def _say_name(public: PublicHalf) -> str:
    variant = public.variant
    return f"{public.name}, {variant.name} {variant.says}" if variant else public.name


def _limits(
    graph: Graph, solved: Mapping[str, Column], fair: NDArray[np.bool_]
) -> Iterator[tuple[str, str, float]]:
    for step in graph.lab.key.limiting:
        extents = find_extents(graph, solved, step)
        least = np.argmin(list(extents.values()), axis=0)
        first = np.broadcast_to(least, fair.shape)[fair]
        for at, species in enumerate(extents):
            if share := float((first == at).mean()):
                yield step, species, share


def _twins(
    graph: Graph, solved: Mapping[str, Column], fair: NDArray[np.bool_]
) -> set[tuple[str, str, float]]:
    sights = see_slips(graph, solved)
    found = set()
    for sight, met in zip(sights, find_twins(sights), strict=True):
        column = np.broadcast_to(met, fair.shape)[fair]
        share = float(column.mean()) if column.size else 0.0
        if share > _SELDOM:
            found.add((sight.step, sight.slip.kind.value, share))
    return found


def print_review(review: Review) -> str:
    """
    Return a review as a page of text.

    Parameters
    ----------
    review : Review
        What was found.

    Returns
    -------
    str
        Several lines; it holds no value of a student.
    """
    return "\n".join(_lines(review))


def _lines(review: Review) -> Iterator[str]:
    of = f" ({review.share:.0%} of all)" if review.share < 1 else ""
    yield f"{review.name}: {review.draws} draws{of}, {review.fair} fair."
    for reason, number in sorted(review.refused.items(), key=lambda e: (-e[1], e[0])):
        yield f"{number:>8} refused: {reason}"
    for step, species, share in review.limits:
        yield f"{share:>8.0%} run out of {species} first: {step}"
    for step, kind in review.never:
        yield f"   never shown: {step}, {kind}"
    for step, kind, share in review.twins:
        yield f"{share:>8.0%} can't be told from another slip: {step}, {kind}"
