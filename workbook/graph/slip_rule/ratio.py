"""Mistakes with the coefficients of an equation."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, factors_of, product_of
from workbook.graph.slip_rule.site import replace_node, sites
from workbook.graph.slip_rule.step import AMOUNT, MASS, ratio_equation, ratio_species
from workbook.matter.formula import read_formula
from workbook.matter.part import Atom
from workbook.relation.tree import Call, Name, Node, Number, Operation, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.product import Factors
    from workbook.graph.slip_rule.step import Found, Step
    from workbook.matter.part import Item

#: A larger subscript is not taken for a coefficient by anybody [-].
_SUBSCRIPT_LIMIT = 12


def mistake_ratios(step: Step) -> Iterator[Found]:
    """
    Give the relations with a ratio of the wrong coefficients.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        Coefficients of another pair, subscripts in their place, or none at all.
    """
    ratios = _ratios_in(step.relation)
    for call in ratios:
        for kind, ratio in _wrong_ratios(step, call):
            yield kind, replace_node(step.relation, call, fraction_node(ratio))
    if len(ratios) > 1:
        without = step.relation
        for call in ratios:
            without = replace_node(without, call, Number("1"))
        yield SlipKind.ALL_COEFFICIENTS_LEFT_OUT, without


def _ratios_in(relation: Node) -> list[Call]:
    calls = [node for node, _ in sites(relation) if isinstance(node, Call)]
    return list(dict.fromkeys(call for call in calls if ratio_species(call)))


def fraction_node(fraction: Fraction) -> Node:
    """
    Return an exact number as a relation.

    Parameters
    ----------
    fraction : Fraction
        The number [-].

    Returns
    -------
    Node
        A number, or one over another.
    """
    top, bottom = (Number(str(each)) for each in fraction.as_integer_ratio())
    return top if fraction.denominator == 1 else Operation("/", top, bottom)


def _wrong_ratios(step: Step, call: Call) -> Iterator[tuple[SlipKind, Fraction]]:
    of, to = ratio_species(call)
    equation = ratio_equation(step.graph, call)
    for other in equation.species:
        for pair in ((other, to), (of, other)):
            if pair != (of, to) and pair[0] != pair[1]:
                yield SlipKind.RATIO_OF_ANOTHER_PAIR, equation.ratio(*pair)
    if step.is_chain:
        # Its coefficients are offered, and no subscripts.
        return
    above, below = equation.coefficient(of), equation.coefficient(to)
    for subscript in _subscripts(step, of):
        yield SlipKind.SUBSCRIPT_AS_COEFFICIENT, Fraction(subscript, below)
    for subscript in _subscripts(step, to):
        yield SlipKind.SUBSCRIPT_AS_COEFFICIENT, Fraction(above, subscript)


def _subscripts(step: Step, species: str) -> list[int]:
    formula = step.graph.lab.public.species[species].formula
    if formula is None:
        return []
    items = (each for part in read_formula(formula).parts for each in part.items)
    found = {count for item in items for count in _counts(item)}
    return sorted(each for each in found if 1 < each <= _SUBSCRIPT_LIMIT)


def _counts(item: Item) -> Iterator[int]:
    yield item.count
    if not isinstance(item, Atom):
        for inner in item.items:
            yield from _counts(inner)


def mistake_conversions(step: Step) -> Iterator[Found]:
    """
    Give the relations that lead to another product, or skip the step to moles.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        From what the earlier amounts were worked out from.
    """
    for relation in _opened_amounts(step):
        factors = factors_of(relation)
        yield from _other_products(step, relation)
        if step.measures in {AMOUNT, MASS} and _ratios_in(relation):
            yield from _on_grams(step, factors)


def _opened_amounts(step: Step) -> Iterator[Node]:
    """Give the relation, and what it is once one earlier amount after another opens."""
    relation: Node | None = step.relation
    while relation is not None:
        yield relation
        relation = _open_one(step, relation)


def _open_one(step: Step, relation: Node) -> Node | None:
    for factor in factors_of(relation):
        name = factor.node
        is_amount = isinstance(name, Name) and step.dimension(name.text) == AMOUNT
        if isinstance(name, Name) and is_amount:
            inner = step.opened(name.text)
            if inner is not None:
                return replace_node(relation, name, inner)
    return None


def _other_products(step: Step, relation: Node) -> Iterator[Found]:
    for call in _ratios_in(relation):
        of, to = ratio_species(call)
        mass = f"{of}.molar_mass"
        equation = ratio_equation(step.graph, call)
        side = equation.right if _stands_on(of, equation.right) else equation.left
        for term in side if mass in names(relation) else ():
            other = f"{term.species}.molar_mass"
            if term.species not in {of, to} and other in step.graph.quantities:
                swapped = replace_node(relation, Name(mass), Name(other))
                ratio = fraction_node(equation.ratio(term.species, to))
                yield SlipKind.ANOTHER_PRODUCT, replace_node(swapped, call, ratio)


def _stands_on(species: str, side: tuple[object, ...]) -> bool:
    return any(getattr(term, "species", None) == species for term in side)


def _on_grams(step: Step, factors: Factors) -> Iterator[Found]:
    """Drop the molar masses on both sides of a ratio, or the one before it."""
    yield from _grams_turned(step, factors)
    masses = [each for each in factors if step.role(each.node) == "molar_mass"]
    powers = sorted(each.power for each in masses)
    wanted = [-1, 1] if step.measures == MASS else [-1]
    if powers == wanted:
        rest: tuple[Factor, ...] = tuple(each for each in factors if each not in masses)
        yield SlipKind.RATIO_ON_GRAMS, product_of(rest)


def _grams_turned(step: Step, factors: Factors) -> Iterator[Found]:
    """Weigh what is there, and apply the ratio to that: no mole of the other is met."""
    pairs = [pair for each in factors if (pair := ratio_species(each.node))]
    if step.measures != MASS or len(pairs) != 1:
        return
    ((of, to),) = pairs
    own, other = Name(f"{of}.molar_mass"), Name(f"{to}.molar_mass")
    masses = [each for each in factors if step.role(each.node) == "molar_mass"]
    if masses == [Factor(own)] and other.text in step.graph.quantities:
        yield (
            SlipKind.RATIO_ON_GRAMS,
            replace_node(product_of(factors), own, other),
        )
