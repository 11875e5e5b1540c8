"""Rules on factor chains: a product, from a value that is shown, of offered factors."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.constant import constant_names
from workbook.labfile.reaction import (
    equation_around,
    meant_equations,
    readable_equations,
)
from workbook.labfile.schema import ChainTable, QuantityTable
from workbook.labfile.step import placed_steps, step_id
from workbook.relation.tree import RATIO, Call, Name, Node, Operation, names, walk

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile
    from workbook.matter.equation import Equation


def is_product(relation: Node) -> bool:
    """
    Tell whether a relation is a product of names, ratios and their inverses.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    bool
        True when a factor chain can express it.
    """
    match relation:
        case Name() | Call(name="ratio"):
            return True
        case Operation(sign="*" | "/", left=left, right=right):
            return is_product(left) and is_product(right)
        case _:
            return False


def ratios_in(relation: Node) -> tuple[tuple[str, ...], ...]:
    """
    Return what each ``ratio`` in a relation names.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    tuple of tuple of str
        Two species, and the reaction where it is named; in the order of writing.

    Examples
    --------
    >>> from workbook.relation.reader import read_relation
    >>> ratios_in(read_relation("oil_amount * ratio(soap, oil)"))
    (('soap', 'oil'),)
    """
    calls = (n for n in walk(relation) if isinstance(n, Call) and n.name == RATIO)
    return tuple(
        tuple(each.text for each in call.arguments if isinstance(each, Name))
        for call in calls
    )


def chain_starts(file: LabFile, relation: Node) -> tuple[str, ...]:
    """
    Return the values that a chain could start from: those that are no constants.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    relation : Node
        The right-hand side of the quantity that is asked.

    Returns
    -------
    tuple of str
        In the order of writing; a chain that can be built has one.
    """
    constants = constant_names(file.species)
    return tuple(name for name in names(relation) if name not in constants)


def chains_can_be_built(file: LabFile) -> Iterator[Finding]:
    """
    Find steps that ask for a chain where none leads to the quantity.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    for place, step in placed_steps(file):
        if isinstance(step, ChainTable) and step.of in file.quantities:
            for sentence in _wrong(file, step.of, file.quantities[step.of]):
                yield (*place, "of"), sentence


def _wrong(file: LabFile, name: str, row: QuantityTable) -> Iterator[str]:
    if not is_product(row.relation):
        yield (
            f"{name!r} is asked as a chain, but its relation is not a product of "
            'factors. Ask it with kind = "number".'
        )
        return
    starts = chain_starts(file, row.relation)
    if len(starts) != 1:
        yield (
            f"{name!r} is asked as a chain, which starts from one value; its relation "
            f'has {len(starts)}. Ask it with kind = "number".'
        )
        return
    yield from _start_wrong(file, name, starts[0])
    yield from _factors_wrong(file, name, starts[0])


def _start_wrong(file: LabFile, name: str, start: str) -> Iterator[str]:
    asked = {step_id(step) for _, step in placed_steps(file)}
    if start in file.quantities and start not in asked:
        yield (
            f"the chain of {name!r} starts from {start!r}, which no step asks for; ask "
            "for it before."
        )


def _factors_wrong(file: LabFile, name: str, start: str) -> Iterator[str]:
    """Find factors that are not offered: only one equation's species bring theirs."""
    relation = file.quantities[name].relation
    equations = readable_equations(file)
    if "" not in equations:
        return  # told by the rule on equations
    tables = (file.readings, file.givens, file.quantities)
    ends = [table[end].of for end in (start, name) for table in tables if end in table]
    around = equation_around(equations, ends)
    offered = set(around.species)
    constants = constant_names(file.species)
    used = {each.partition(".")[0] for each in names(relation) if each in constants}
    used |= {species for named in ratios_in(relation) for species in named[:2]}
    yield from _reactions_wrong(name, relation, equations, around)
    for species in sorted(used - offered):
        yield (
            f"the chain of {name!r} needs a factor of {species!r}, but only factors of "
            f"{', '.join(sorted(offered))} are offered: those of one equation. Say of "
            'what its two ends are, or ask it with kind = "number".'
        )


def _reactions_wrong(
    name: str, relation: Node, equations: Mapping[str, Equation], around: Equation
) -> Iterator[str]:
    """Find ratios of a named reaction that is not the one whose factors are offered."""
    for _, _, *reaction in ratios_in(relation):
        if reaction and around not in meant_equations(equations, *reaction).values():
            yield (
                f"the chain of {name!r} takes coefficients of {reaction[0]!r}, "
                "but those of another equation are offered. Say of what its two ends "
                'are, or ask it with kind = "number".'
            )
