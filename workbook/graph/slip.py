"""
The known mistakes of a step: what its relation becomes when one is made.

Rules rewrite the relation, whatever the lab; none knows a lab by its name. Mistakes
that lead to the same value share one sentence that names both.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from workbook.graph.function import to_function
from workbook.graph.quantity import Origin
from workbook.graph.slip_rule.algebra import mistake_algebra
from workbook.graph.slip_rule.author import own_slips
from workbook.graph.slip_rule.constant import mistake_constants
from workbook.graph.slip_rule.difference import mistake_sums
from workbook.graph.slip_rule.factor import mistake_factors
from workbook.graph.slip_rule.formula import mistake_formulas
from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.limiting import mistake_limits
from workbook.graph.slip_rule.logarithm import mistake_logarithms
from workbook.graph.slip_rule.percentage import mistake_percentages
from workbook.graph.slip_rule.probe import probe
from workbook.graph.slip_rule.ratio import mistake_conversions, mistake_ratios
from workbook.graph.slip_rule.scale import mistake_gases, mistake_scales
from workbook.graph.slip_rule.sentence import say, say_together
from workbook.graph.slip_rule.skip import mistake_starts
from workbook.graph.slip_rule.solution import mistake_solutions
from workbook.graph.slip_rule.step import Step, open_unasked

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Mapping

    from workbook.graph.quantity import Graph
    from workbook.graph.slip_rule.step import Found
    from workbook.relation.tree import Node

__all__ = ["Slip", "SlipKind", "sentence_of", "slips_of", "step_of"]

#: Values nearer to each other than this share can't be told apart: it is less than what
#: two printed tables of atomic weights differ by [-].
_SAME = 1e-4

#: Graphs whose slips are kept.
_KEPT = 1024

_Rule: TypeAlias = "Callable[[Step], Iterator[Found]]"

#: Rules on what stands in any relation, and rules on molar masses by algebra.
_RULES: tuple[_Rule, ...] = (
    mistake_factors,
    mistake_constants,
    mistake_ratios,
    mistake_conversions,
    mistake_solutions,
    mistake_formulas,
    mistake_sums,
    mistake_limits,
    mistake_percentages,
    mistake_starts,
    mistake_gases,
    mistake_logarithms,
)
_ALGEBRA_RULES: tuple[_Rule, ...] = (mistake_algebra,)


@dataclass(frozen=True, slots=True)
class Slip:
    """A known mistake in a step, and the relation that it makes of the right one."""

    kind: SlipKind
    #: Names the error, and never a number of the key. Slips with the same sentence
    #: are one explanation.
    sentence: str
    #: What the student has worked out, in names of the graph.
    relation: Node


@lru_cache(maxsize=_KEPT)
def step_of(graph: Graph, name: str) -> Step:
    """
    Return the step that asks for a quantity, as a student works it out.

    Parameters
    ----------
    graph : Graph
        The lab.
    name : str
        A quantity that follows from others.

    Returns
    -------
    Step
        Its relation in what is asked, shown or constant.

    Raises
    ------
    ValueError
        If the quantity follows from nothing.
    """
    relation = graph.quantities[name].relation
    if relation is None:
        msg = f"{name!r} has no relation."
        raise ValueError(msg)
    return Step(graph, name, open_unasked(graph, relation))


@lru_cache(maxsize=_KEPT)
def slips_of(graph: Graph, name: str) -> tuple[Slip, ...]:
    """
    Return the mistakes that a value of a quantity can show.

    Parameters
    ----------
    graph : Graph
        The lab.
    name : str
        A quantity that a step asks for and that follows from others.

    Returns
    -------
    tuple of Slip
        Without those that lead to the right value for everybody; empty for a reading
        and for what is drawn.
    """
    if graph.quantities[name].origin is not Origin.DERIVED:
        return ()
    step = step_of(graph, name)
    is_algebra = name.removesuffix(".molar_mass") in graph.lab.key.pieces
    rules = (*(_ALGEBRA_RULES if is_algebra else _RULES), mistake_scales)
    found = [_Mistake(*each) for rule in rules for each in rule(step)]
    found += [
        _Mistake(SlipKind.OWN, own.relation, own.says)
        for own in own_slips(graph.lab, name)
    ]
    off = graph.lab.key.slips.off
    # What follows from the answer itself is no way to it.
    return _shown(
        step,
        [
            each
            for each in found
            if each.kind.value not in off and name not in step.earlier(each.relation)
        ],
    )


def sentence_of(graph: Graph, kind: SlipKind) -> str:
    """
    Return the sentence of a mistake that is found without a relation.

    Parameters
    ----------
    graph : Graph
        For what its author has reworded or switched off.
    kind : SlipKind
        The mistake.

    Returns
    -------
    str
        Empty where it is switched off.
    """
    slips = graph.lab.key.slips
    return "" if kind.value in slips.off else say(kind, slips.says)


@dataclass(frozen=True, slots=True)
class _Mistake:
    kind: SlipKind
    relation: Node
    #: What the author says of one of their own.
    says: str = ""


def _shown(step: Step, found: list[_Mistake]) -> tuple[Slip, ...]:
    """Drop what shows nothing, and let mistakes of one value share a sentence."""
    students = probe(step.graph)
    right = _values(step, step.relation, students)
    groups: list[tuple[tuple[float, ...], dict[tuple[SlipKind, str], Node]]] = []
    for each in found:
        values = _values(step, each.relation, students)
        if not all(map(math.isfinite, values)) or _are_same(values, right):
            continue
        same = (alike for others, alike in groups if _are_same(values, others))
        if (alike := next(same, None)) is None:
            groups.append((values, alike := {}))
        alike.setdefault((each.kind, each.says), each.relation)
    reworded = step.graph.lab.key.slips.says
    return tuple(
        Slip(kind, sentence, relation)
        for _, alike in groups
        for sentence in [_say(alike.keys(), reworded)]
        for (kind, _), relation in alike.items()
    )


def _say(alike: Collection[tuple[SlipKind, str]], reworded: Mapping[str, str]) -> str:
    own = tuple(says for _, says in alike if says)
    kinds = frozenset(kind for kind, _ in alike) - {SlipKind.OWN}
    return say_together(kinds, own, reworded)


def _values(
    step: Step, relation: Node, students: tuple[dict[str, float], ...]
) -> tuple[float, ...]:
    solve = to_function(step.graph, relation)
    return tuple(map(solve, students))


def _are_same(first: tuple[float, ...], second: tuple[float, ...]) -> bool:
    return all(
        math.isclose(one, other, rel_tol=_SAME)
        for one, other in zip(first, second, strict=True)
    )
