"""What a judge has before them: a lab, a student's true values, and the conventions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.measure.rounding import Ties
from workbook.measure.written import Comma

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph


@dataclass(frozen=True, slots=True)
class Convention:
    """Rules on which good sources differ, so that a course chooses them."""

    comma: Comma = Comma.ASK
    ties: Ties = Ties.EVEN
    #: How many figures more or fewer than the proper number are accepted.
    figures_slack: int = 1


@dataclass(frozen=True, slots=True)
class Case:
    """One student's copy of a lab, with everything that the student must not see."""

    graph: Graph
    #: Every quantity's true value, in base units.
    values: Mapping[str, float]
    convention: Convention
    #: What rests on a reading of the student's own that is not noted: it has no value.
    missing: frozenset[str] = frozenset()
