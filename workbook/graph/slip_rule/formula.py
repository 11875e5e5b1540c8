"""Mistakes with a molar mass: the formula was misread, or its atoms miscounted."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.product import Factor, product_of
from workbook.graph.slip_rule.site import replace_node
from workbook.graph.slip_rule.term import Term, sum_of
from workbook.matter.elements import ELEMENTS
from workbook.matter.formula import molar_mass, read_formula
from workbook.matter.part import Atom, Group, count_atoms
from workbook.relation.tree import Name, Number, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.slip_rule.step import Found, Step
    from workbook.matter.elements import AtomicWeights
    from workbook.matter.formula import Formula
    from workbook.matter.part import Item, Part
    from workbook.relation.tree import Node

_ROLE = "molar_mass"
_WATER = {"H": 2, "O": 1}

#: Metals whose salts are taken for their acids.
_ALKALI = ("Li", "Na", "K")


def mistake_formulas(step: Step) -> Iterator[Found]:
    """
    Give the relations with the molar mass of a misread formula.

    Parameters
    ----------
    step : Step
        Where the mistake is made.

    Returns
    -------
    iterator of (SlipKind, Node)
        None in a chain, whose factors are printed; and a molar mass that the lab
        asks for by algebra is a step of its own.
    """
    if step.is_chain:
        return
    for name in names(step.relation):
        is_constant = step.graph.quantities[name].origin is Origin.CONSTANT
        formula = _formula_of(step, name) if is_constant else None
        if formula is not None:
            for kind, mass in misread_masses(formula, step.graph.weights):
                relation = replace_node(step.relation, Name(name), Number(str(mass)))
                yield kind, relation
            for mass in _of_the_equation(step, name):
                relation = replace_node(step.relation, Name(name), Number(str(mass)))
                yield SlipKind.COEFFICIENT_IN_MOLAR_MASS, relation
            for whole in _joined(step, name):
                relation = replace_node(step.relation, Name(name), whole)
                yield SlipKind.LEAVING_MOLECULE_KEPT, relation


def _joined(step: Step, name: str) -> Iterator[Node]:
    """Give what a product weighs if all that reacts stays in it."""
    species, quantities = step.species(name), step.graph.quantities
    for equation in step.equations_of(species):
        made = [term.species for term in equation.right]
        masses = [f"{term.species}.{_ROLE}" for term in equation.left]
        is_joined = species in made and len(made) > 1 and len(masses) > 1
        if is_joined and quantities.keys() >= set(masses):
            counts = [equation.coefficient(term.species) for term in equation.left]
            parts = map(_times, counts, masses)
            count = Factor(Number(str(equation.coefficient(species))), -1)
            yield product_of((Factor(sum_of(tuple(map(Term, parts)))), count))


def _times(count: int, mass: str) -> Node:
    return product_of((Factor(Number(str(count))), Factor(Name(mass))))


def _formula_of(step: Step, name: str) -> Formula | None:
    species, _, suffix = name.partition(".")
    if suffix != _ROLE:
        return None
    text = step.graph.lab.public.species[species].formula
    return None if text is None else read_formula(text)


def _of_the_equation(step: Step, name: str) -> Iterator[Decimal]:
    """Give what so many moles weigh as the equation has, in the place of one."""
    constant = step.graph.quantities[name].constant
    species = step.species(name)
    found = {each.coefficient(species) for each in step.equations_of(species)}
    for coefficient in sorted(found - {1}):
        if constant is not None:
            yield coefficient * constant.value


def misread_masses(
    formula: Formula, weights: AtomicWeights
) -> Iterator[tuple[SlipKind, Decimal]]:
    """
    Give the molar masses that a misread formula leads to.

    Parameters
    ----------
    formula : Formula
        The right one.
    weights : AtomicWeights
        The table that the course has chosen.

    Returns
    -------
    iterator of (SlipKind, Decimal)
        Each with its mistake [g/mol].
    """
    for kind, parts in _misread(formula.parts):
        yield kind, molar_mass(replace(formula, parts=parts), weights)
    atoms = formula.atoms
    symbols = list(ELEMENTS)
    numbers = sum(count * (1 + symbols.index(each)) for each, count in atoms.items())
    yield SlipKind.ATOMIC_NUMBERS, Decimal(numbers)
    yield (
        SlipKind.WHOLE_ATOMIC_WEIGHTS,
        sum(
            (_whole(weights.weight(each)) * count for each, count in atoms.items()),
            Decimal(0),
        ),
    )
    yield from _other_forms(formula, weights)


def _whole(weight: Decimal) -> Decimal:
    return weight.quantize(Decimal(1), ROUND_HALF_UP)


def _other_forms(
    formula: Formula, weights: AtomicWeights
) -> Iterator[tuple[SlipKind, Decimal]]:
    """Give what an organic substance weighs with another count of hydrogen or form."""
    atoms, mass = formula.atoms, molar_mass(formula, weights)
    if not {"C", "H"} <= atoms.keys():
        return
    hydrogen = weights.weight("H")
    yield SlipKind.HYDROGEN_MISCOUNTED, mass + hydrogen
    yield SlipKind.HYDROGEN_MISCOUNTED, mass - hydrogen
    for metal in _ALKALI:
        if metal in atoms:
            ion = mass - atoms[metal] * weights.weight(metal)
            yield SlipKind.SALT_AND_ACID_MIXED, ion
            yield SlipKind.SALT_AND_ACID_MIXED, ion + atoms[metal] * hydrogen


def _misread(parts: tuple[Part, ...]) -> Iterator[tuple[SlipKind, tuple[Part, ...]]]:
    for at, part in enumerate(parts):
        for kind, items in _misread_items(part.items):
            changed = replace(part, items=items)
            yield kind, (*parts[:at], changed, *parts[at + 1 :])
    for at, part in enumerate(parts):
        if at and count_atoms(part.items) == Counter(_WATER):
            yield from _misread_water(parts, at)


def _misread_water(
    parts: tuple[Part, ...], at: int
) -> Iterator[tuple[SlipKind, tuple[Part, ...]]]:
    rest = parts[:at] + parts[at + 1 :]
    yield SlipKind.CRYSTAL_WATER_LEFT_OUT, rest
    if (count := parts[at].count) > 1:
        multiplied = tuple(replace(each, count=each.count * count) for each in rest)
        once = (*rest, replace(parts[at], count=1))
        yield SlipKind.CRYSTAL_WATER_MISREAD, multiplied
        yield SlipKind.CRYSTAL_WATER_MISREAD, once


def _misread_items(
    items: tuple[Item, ...],
) -> Iterator[tuple[SlipKind, tuple[Item, ...]]]:
    for at, item in enumerate(items):
        for kind, new in _misread_item(item):
            yield kind, (*items[:at], *new, *items[at + 1 :])


def _misread_item(item: Item) -> Iterator[tuple[SlipKind, tuple[Item, ...]]]:
    if item.count > 1:
        yield SlipKind.SUBSCRIPT_LOST, (replace(item, count=1),)
    if isinstance(item, Atom):
        return
    yield from _misread_group(item)
    for kind, inner in _misread_items(item.items):
        yield kind, (replace(item, items=inner),)


def _misread_group(group: Group) -> Iterator[tuple[SlipKind, tuple[Item, ...]]]:
    """Let the number behind a bracket act on the first or the last inside it only."""
    inside = group.items
    if group.count > 1 and len(inside) > 1:
        for at in (0, len(inside) - 1):
            times = replace(inside[at], count=inside[at].count * group.count)
            changed = (*inside[:at], times, *inside[at + 1 :])
            yield SlipKind.BRACKETS_MISREAD, changed
