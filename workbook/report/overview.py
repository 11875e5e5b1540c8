"""
The report on a class: one page for staff, and the same content for the desk.

Every plot has its figures beside it, small numbers are called small, and what chance
alone could make is not called a difference.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import TYPE_CHECKING

import numpy as np
from markupsafe import Markup

from workbook.measure.units import convert
from workbook.report.fact import Standing, find_yields
from workbook.report.frame import fill_page
from workbook.report.notice import list_notices
from workbook.report.plot import list_edges, plot_steps, plot_yields
from workbook.report.share import Share
from workbook.report.tally import contrast_variants, list_slips, tally_steps

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.graph.quantity import Graph
    from workbook.labfile.roster import Student
    from workbook.report.cohort import Cohort
    from workbook.report.notice import Notice
    from workbook.report.tally import Contrasts, Slip, StepTally

#: Of fewer hand-ins than this every share is called uncertain [-].
_SMALL = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class YieldView:
    """What a class answered to a step that asks for a yield."""

    label: str
    #: Both ends of the range that the lab expects [%].
    expected: tuple[float, float]
    count: int
    #: How many lie in the range [-].
    inside: int
    #: The value in the middle; None where nobody answered [%].
    middle: float | None
    #: Each class of the plot, in words, with its number.
    bars: tuple[tuple[str, int], ...]
    #: How many lie below or above all of them [-].
    beyond: int
    plot: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class Overview:
    """One lab of a class."""

    lab: str
    title: str
    students: int
    hand_ins: int
    #: The sum of points in the middle, and what the lab is worth; None without any.
    points: tuple[float, float] | None
    yields: tuple[YieldView, ...]
    steps: tuple[StepTally, ...]
    plot: Markup
    slips: tuple[Slip, ...]
    contrasts: Contrasts
    notices: tuple[Notice, ...]

    @property
    def is_small(self) -> bool:
        """Whether there are too few hand-ins to trust a share."""
        return self.hand_ins < _SMALL


def look_over(graph: Graph, roster: Sequence[Student], cohort: Cohort) -> Overview:
    """
    Return the report on one lab of a class.

    Parameters
    ----------
    graph : Graph
        The lab.
    roster : sequence of Student
        The students of the course.
    cohort : Cohort
        The hand-ins to it.

    Returns
    -------
    Overview
        With plots drawn.
    """
    public, facts = graph.lab.public, cohort.facts
    steps = tally_steps(public, cohort)
    worth = facts[0].out_of if facts else 0.0
    middle = median(fact.points for fact in facts) if facts else 0.0
    return Overview(
        lab=public.name,
        title=public.title,
        students=len(roster),
        hand_ins=len(facts),
        points=(middle, worth) if facts else None,
        yields=tuple(_view(graph, step, cohort) for step in find_yields(graph)),
        steps=tuple(steps),
        plot=Markup(plot_steps(steps)),  # noqa: S704 - drawn by us, texts escaped
        slips=tuple(list_slips(public, facts)),
        contrasts=contrast_variants(public, cohort),
        notices=tuple(list_notices(roster, cohort)),
    )


def print_overviews(course: str, overviews: Sequence[Overview]) -> bytes:
    """
    Return the report on a class as a page.

    Parameters
    ----------
    course : str
        The course's title.
    overviews : sequence of Overview
        One for each lab.

    Returns
    -------
    bytes
        HTML in UTF-8.
    """
    return fill_page("class.html", _fill(course, overviews))


def show_overview(overview: Overview) -> str:
    """
    Return the report on one lab as a part of another page.

    Parameters
    ----------
    overview : Overview
        What `look_over` gave.

    Returns
    -------
    str
        HTML.
    """
    return fill_page("overview.html", _fill("", [overview])).decode()


def _fill(course: str, overviews: Sequence[Overview]) -> dict[str, object]:
    words = list(Standing)
    return {
        "course": course,
        "overviews": overviews,
        "standings": words,
        "say_share": say_share,
    }


def say_share(hits: int, count: int) -> str:
    """
    Return a share with how far it can be trusted.

    Parameters
    ----------
    hits, count : int
        So many of so many [-].

    Returns
    -------
    str
        In percent, with an interval of 95 %.

    Examples
    --------
    >>> say_share(8, 10)
    '80 % (8 of 10; 49 to 94 %)'
    """
    if not count:
        return "0 of 0"
    share = Share(hits, count)
    low, high = share.interval()
    return (
        f"{100 * share.value:.0f} % ({hits} of {count}; {100 * low:.0f} to "
        f"{100 * high:.0f} %)"
    )


def _view(graph: Graph, step: str, cohort: Cohort) -> YieldView:
    (of,) = (ask.of for ask in graph.lab.public.asks if ask.id == step)
    quantity = graph.quantities[of or ""]
    plausible = quantity.plausible
    if plausible is None:
        msg = f"{step!r} has no range."
        raise ValueError(msg)
    low, high = (
        float(convert(end, plausible.unit, quantity.unit))
        for end in (plausible.low, plausible.high)
    )
    label = graph.lab.public.labels[quantity.name].text
    typed = cohort.column(step)["typed"]
    values = typed[~np.isnan(typed)].tolist()
    edges = list_edges((low, high))
    return YieldView(
        label=label,
        expected=(low, high),
        count=len(values),
        inside=sum(low <= value <= high for value in values),
        middle=median(values) if values else None,
        bars=tuple(_count(values, edges)),
        beyond=sum(not edges[0] <= value < edges[-1] for value in values),
        plot=Markup(plot_yields(values, (low, high), label)),  # noqa: S704 - as above
    )


def _count(values: Sequence[float], edges: Sequence[int]) -> list[tuple[str, int]]:
    return [
        (f"{low} to {high} %", number)
        for low, high in pairwise(edges)
        if (number := sum(low <= value < high for value in values))
    ]
