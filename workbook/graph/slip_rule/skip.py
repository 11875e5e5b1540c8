"""Mistakes that leave a step out, or start from something else than what it gives."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, factors_of, product_of
from workbook.graph.slip_rule.site import replace_node, sites
from workbook.graph.slip_rule.step import (
    AMOUNT,
    MASS,
    PERCENTAGE,
    VALUE,
    VOLUME,
    ratio_species,
)
from workbook.relation.tree import Name, Node, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.product import Factors
    from workbook.graph.slip_rule.step import Found, Step


def mistake_starts(step: Step) -> Iterator[Found]:
    """
    Give the relations that start from another value than they should.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        A volume for a mass, a planned value, a part for the whole, an equal mass or
        volume for what the equation says.
    """
    yield from _volumes_for_masses(step)
    yield from _planned(step)
    if step.measures != PERCENTAGE:
        yield from _part_for_whole(step)
    if any(ratio_species(node) for node, _ in sites(step.relation)):
        yield from _equal_volumes(step)
        yield from _equal_masses(step)


def _volumes_for_masses(step: Step) -> Iterator[Found]:
    for name in names(step.relation):
        inner = step.opened(name)
        if inner is None or step.dimension(name) != MASS:
            continue
        for source in names(inner):
            if step.dimension(source) == VOLUME:
                relation = replace_node(step.relation, Name(name), Name(source))
                yield SlipKind.VOLUME_AS_MASS, relation


def _planned(step: Step) -> Iterator[Found]:
    """Use what the plan says of a substance in the place of what was measured."""
    for given in step.graph.lab.public.givens:
        alike = step.species(given), step.dimension(given)
        for name in names(step.relation):
            is_measured = step.role(Name(name)) == VALUE and name != given
            if is_measured and (step.species(name), step.dimension(name)) == alike:
                relation = replace_node(step.relation, Name(name), Name(given))
                yield SlipKind.PLANNED_VALUE, relation
        if alike[0] and (step.species(step.name), step.measures) == alike:
            yield SlipKind.PLANNED_VALUE, Name(given)


def _part_for_whole(step: Step) -> Iterator[Found]:
    """Leave out two values of one kind, one over the other, that scale a part up."""
    factors = factors_of(step.relation)
    values = [each for each in factors if _is_value(step, each)]
    for above in (each for each in values if each.power > 0):
        for below in (each for each in values if each.power < 0):
            if _kind(step, above) == _kind(step, below) and len(factors) > 2:  # noqa: PLR2004  and something else
                rest = tuple(each for each in factors if each not in (above, below))
                yield SlipKind.PART_NOT_SCALED, product_of(rest)


def _is_value(step: Step, factor: Factor) -> bool:
    return isinstance(factor.node, Name) and step.role(factor.node) == VALUE


def _kind(step: Step, factor: Factor) -> object:
    return step.dimension(getattr(factor.node, "text", ""))


def _equal_volumes(step: Step) -> Iterator[Found]:
    if step.measures == VOLUME:
        for name in step.earlier(step.relation):
            if step.dimension(name) == VOLUME:
                yield SlipKind.EQUAL_VOLUMES, Name(name)


def _equal_masses(step: Step) -> Iterator[Found]:
    """Weigh out as much of one substance as there is of the other."""
    factors: Factors = factors_of(step.relation)
    if step.measures != MASS:
        return
    for factor in factors:
        pair = ratio_species(factor.node)
        start = _amount_of(step, factors, pair[1]) if pair else None
        mass = f"{pair[1]}.molar_mass" if pair else ""
        if start is not None and mass in step.graph.quantities:
            yield SlipKind.EQUAL_MASSES, product_of((start, Factor(Name(mass))))


def _amount_of(step: Step, factors: Factors, species: str) -> Factor | None:
    for factor in factors:
        name: Node = factor.node
        if isinstance(name, Name) and step.dimension(name.text) == AMOUNT:
            return factor if step.species(name.text) == species else None
    return None
