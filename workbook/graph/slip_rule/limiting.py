"""Mistakes with the reagent that runs out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.ratio import fraction_node
from workbook.graph.slip_rule.site import replace_node, sites
from workbook.graph.slip_rule.step import ratio_equation, ratio_species
from workbook.graph.slip_rule.term import Term, sum_of
from workbook.relation.tree import Call, Name, names

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.graph.slip_rule.step import Found, Step


def mistake_limits(step: Step) -> Iterator[Found]:
    """
    Give the relations that go by a reagent that does not run out.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        However the wrong reagent was found: the number shows only which it was.
    """
    for node, site in sites(step.relation):
        if isinstance(node, Call) and node.name in {"min", "max"}:
            for argument in node.arguments:
                relation = site.put(step.relation, argument)
                yield SlipKind.REAGENT_IN_EXCESS, relation
            added = sum_of(tuple(map(Term, node.arguments)))
            yield SlipKind.AMOUNTS_ADDED, site.put(step.relation, added)
    for amounts in step.graph.lab.key.limiting.values():
        yield from _other_reagents(step, amounts)


def _other_reagents(step: Step, amounts: Mapping[str, str]) -> Iterator[Found]:
    """Start from the amount of another reagent of the same question."""
    used = names(step.relation)
    if sum(name in used for name in amounts.values()) != 1:
        return
    nodes = (node for node, _ in sites(step.relation) if isinstance(node, Call))
    calls = {node for node in nodes if ratio_species(node)}
    for call in calls:
        of, to = ratio_species(call)
        if of in amounts or amounts.get(to) not in used:
            continue
        equation = ratio_equation(step.graph, call)
        for other in amounts.keys() & set(equation.species) - {to}:
            ratio = fraction_node(equation.ratio(of, other))
            swapped = replace_node(step.relation, call, ratio)
            start = Name(amounts[to])
            relation = replace_node(swapped, start, Name(amounts[other]))
            yield SlipKind.REAGENT_IN_EXCESS, relation
            both = sum_of((Term(step.relation), Term(relation)))
            yield SlipKind.AMOUNTS_ADDED, both
