"""Mistakes with the strength of a solution."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, factors_of, product_of, products
from workbook.graph.slip_rule.site import replace_node
from workbook.graph.slip_rule.step import AMOUNT, VALUE, VOLUME
from workbook.graph.slip_rule.term import Term, sum_of
from workbook.relation.tree import Name, Number, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.product import Factors
    from workbook.graph.slip_rule.step import Found, Step

#: A percentage is so many in one hundred; a litre holds one thousand base units.
_HUNDRED, _THOUSAND = Number("100"), Number("1000")

_CONCENTRATION = AMOUNT / VOLUME

#: Constants that go with the volume of a solution.
_BY_VOLUME = ("molarity", "mass_per_volume", "solution_density")


def mistake_solutions(step: Step) -> Iterator[Found]:
    """
    Give the relations in which the strength of a solution is misread.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        For each strength that the relation uses.
    """
    for product in products(step.relation):
        for at, factor in enumerate(product.factors):
            others = product.factors[:at] + product.factors[at + 1 :]
            for kind, factors in _misread(step, factor, others):
                yield kind, product.site.put(step.relation, product_of(factors))
    yield from _mixed_up(step)
    yield from _undiluted(step)
    yield from _watered(step)


def _undiluted(step: Step) -> Iterator[Found]:
    """Go on with the concentration that a solution had before it was diluted."""
    for name in names(step.relation):
        inner = step.opened(name)
        if inner is None or step.dimension(name) != _CONCENTRATION:
            continue
        for stock in names(inner):
            if step.dimension(stock) == _CONCENTRATION:
                relation = replace_node(step.relation, Name(name), Name(stock))
                yield SlipKind.STOCK_CONCENTRATION, relation


def _watered(step: Step) -> Iterator[Found]:
    """Add the volume of water beside a solution to that of the solution."""
    waters = [
        name
        for name in step.graph.lab.public.labels
        if _is_water(step, name) and step.dimension(name) == VOLUME
    ]
    factors = factors_of(step.relation)
    if not any(step.role(each.node) in _BY_VOLUME for each in factors):
        return
    for factor in factors:
        name = factor.node.text if isinstance(factor.node, Name) else ""
        if not name or step.dimension(name) != VOLUME or _is_water(step, name):
            continue
        for water in waters:
            both = sum_of((Term(factor.node), Term(Name(water))))
            relation = replace_node(step.relation, factor.node, both)
            yield SlipKind.WATER_COUNTED_IN, relation


def _is_water(step: Step, name: str) -> bool:
    species = step.graph.lab.public.species.get(step.species(name))
    return species is not None and species.formula == "H2O"


def _misread(
    step: Step, factor: Factor, others: Factors
) -> Iterator[tuple[SlipKind, Factors]]:
    role, power = step.role(factor.node), factor.power
    if role == "mass_fraction":
        whole = Factor(_HUNDRED, power)
        yield SlipKind.PERCENT_NOT_DIVIDED, (*others, factor, whole)
        yield from _as_molarity(step, (factor, whole), others)
    elif role in {"molarity", "mass_per_volume"}:
        litres = Factor(_THOUSAND, -power)
        yield SlipKind.CONCENTRATION_LEFT_OUT, (*others, litres)
        turned = (*others, factor.turned(), litres, litres)
        yield SlipKind.CONCENTRATION_UPSIDE_DOWN, turned
        density = _name(step, factor, "solution_density")
        if role == "mass_per_volume" and density in step.graph.quantities:
            dense = Factor(Name(density), power)
            yield SlipKind.MASS_PER_VOLUME_AS_SHARE, (*others, factor, dense)


def _name(step: Step, factor: Factor, suffix: str) -> str:
    text = factor.node.text if isinstance(factor.node, Name) else ""
    return f"{step.species(text)}.{suffix}"


def _as_molarity(
    step: Step, percentage: Factors, others: Factors
) -> Iterator[tuple[SlipKind, Factors]]:
    """Put the percentage where density, share and molar mass give moles in a litre."""
    share, power = percentage[0], percentage[0].power
    needless = (
        Factor(Name(_name(step, share, "solution_density")), power),
        Factor(Name(_name(step, share, "molar_mass")), -power),
    )
    if all(each in others for each in needless):
        rest = tuple(each for each in others if each not in needless)
        litre = Factor(_THOUSAND, -power)
        yield SlipKind.PERCENT_AS_MOLARITY, (*rest, *percentage, litre)


def _mixed_up(step: Step) -> Iterator[Found]:
    """Take a concentration for an amount, and the other way round."""
    for factor in factors_of(step.relation):
        is_strength = step.role(factor.node) == "molarity"
        if is_strength and step.measures == AMOUNT:
            litre = product_of((factor, Factor(_THOUSAND)))
            yield SlipKind.CONCENTRATION_FOR_AMOUNT, litre
        is_value = step.role(factor.node) == VALUE and isinstance(factor.node, Name)
        if is_value and step.measures == _CONCENTRATION:
            name = getattr(factor.node, "text", "")
            if step.dimension(name) == AMOUNT:
                share = product_of((factor, Factor(_THOUSAND, -1)))
                yield SlipKind.AMOUNT_FOR_CONCENTRATION, share
