"""All hand-ins to one lab, side by side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from workbook.report.fact import NEVER, STEP, find_readings

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from workbook.graph.quantity import Graph
    from workbook.report.fact import Fact

#: Behind every time that there is.
_LAST = np.iinfo(np.int64).max


@dataclass(frozen=True, slots=True)
class Cohort:
    """The hand-ins to one lab."""

    #: The steps of the lab, in its order, and those of them that are readings.
    steps: tuple[str, ...]
    readings: tuple[str, ...]
    facts: Sequence[Fact]
    #: What is kept of each step: (n_facts, n_steps) of `STEP`.
    table: NDArray[np.void]

    def column(self, step: str) -> NDArray[np.void]:
        """
        Return what is kept of one step.

        Parameters
        ----------
        step : str
            A step of the lab.

        Returns
        -------
        ndarray
            (n_facts,) of `STEP`.
        """
        return self.table[:, self.steps.index(step)]


@dataclass(frozen=True, slots=True)
class Pace:
    """In which order a class answered, and how long after the answer before."""

    #: The places of the steps of each hand-in, as they were answered: (n_facts,
    #: n_steps); those without a time stand behind.
    order: NDArray[np.intp]
    #: From each of them to the one after it [s]: (n_facts, n_steps - 1); not a number
    #: where either has no time.
    gaps: NDArray[np.float64]


def form_cohort(graph: Graph, facts: Sequence[Fact]) -> Cohort:
    """
    Lay the hand-ins to one lab side by side.

    Parameters
    ----------
    graph : Graph
        The lab.
    facts : sequence of Fact
        One for each hand-in.

    Returns
    -------
    Cohort
        In their order.
    """
    steps = tuple(ask.id for ask in graph.lab.public.asks)
    return line_up(steps, tuple(find_readings(graph)), facts)


def line_up(
    steps: tuple[str, ...], readings: tuple[str, ...], facts: Sequence[Fact]
) -> Cohort:
    """
    Lay hand-ins side by side whose steps are known.

    Parameters
    ----------
    steps, readings : tuple of str
        The steps of the lab, and those of them that are readings.
    facts : sequence of Fact
        One for each hand-in.

    Returns
    -------
    Cohort
        In their order.
    """
    table = np.empty((len(facts), len(steps)), STEP)
    for row, fact in zip(table, facts, strict=True):
        row[:] = fact.steps
    return Cohort(steps, readings, facts, table)


def find_pace(cohort: Cohort) -> Pace:
    """
    Return in which order a class answered, and how fast.

    Parameters
    ----------
    cohort : Cohort
        The hand-ins.

    Returns
    -------
    Pace
        What was answered at one moment stands by the names of the steps.
    """
    by_name = np.argsort(np.array(cohort.steps), kind="stable")
    times = cohort.table["at"][:, by_name]
    times = np.where(times == NEVER, _LAST, times)
    order = np.argsort(times, axis=1, kind="stable")
    times = np.take_along_axis(times, order, axis=1)
    gaps = np.where(times[:, 1:] == _LAST, np.nan, np.diff(times, axis=1) / 1e6)
    return Pace(by_name[order], gaps)
