"""A lab to its graph of quantities."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import RelationError
from workbook.graph.algebra import check_pieces, molar_mass_relation, piece_name
from workbook.graph.constant import make_constants, molar_mass_constant
from workbook.graph.dimension import explain_dimension
from workbook.graph.expression import to_sympy
from workbook.graph.order import find_circle, order
from workbook.graph.quantity import Graph, Origin, Quantity
from workbook.graph.slip_rule.author import slips_wrong
from workbook.labfile.constant import MOLAR_MASS
from workbook.labfile.piece import piece_formulas
from workbook.measure.units import read_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.half import Lab
    from workbook.labfile.schema import MolarMass
    from workbook.matter.elements import AtomicWeights
    from workbook.relation.tree import Node


def build_graph(lab: Lab, weights: AtomicWeights) -> Graph:
    """
    Return the graph of a lab's quantities, its dimensions checked.

    Parameters
    ----------
    lab : Lab
        Read and split.
    weights : AtomicWeights
        The table that the course has chosen.

    Returns
    -------
    Graph
        In the order of working out.

    Raises
    ------
    AuthorError
        With every finding: quantities in a circle, a relation whose dimension is
        not that of its quantity, pieces that do not add up to a formula.
    """
    constants = make_constants(lab.public.species, weights)
    derived, wrong = _algebra(lab, weights, constants)
    nodes = constants | _values(lab) | derived
    relations = {n: q.relation for n, q in nodes.items() if q.relation is not None}
    findings = [
        *wrong,
        *_relations_wrong(lab, nodes),
        *_circle(lab, relations),
        *slips_wrong(lab, nodes),
    ]
    if findings:
        raise lab.refuse(findings)
    first = order(relations)
    rest = sorted(set(nodes) - set(first))
    return Graph(
        lab=lab, weights=weights, quantities={n: nodes[n] for n in (*rest, *first)}
    )


def _relations_wrong(lab: Lab, nodes: Mapping[str, Quantity]) -> Iterator[Finding]:
    units = {name: quantity.unit for name, quantity in nodes.items()}
    for name, relation in lab.key.relations.items():
        sentence = explain_dimension(name, relation, units)
        try:
            to_sympy(relation)
        except RelationError as error:
            sentence = f"{name!r}: {error}"
        if sentence:
            yield _place(lab, name), sentence


def _circle(lab: Lab, relations: Mapping[str, Node]) -> Iterator[Finding]:
    circle = find_circle(relations)
    if circle:
        sentence = (
            "quantities follow from each other in a circle: "
            f"{' from '.join(map(repr, circle))}. Give one of them another relation."
        )
        yield _place(lab, circle[0]), sentence


def _place(lab: Lab, name: str) -> tuple[str, ...]:
    table = "readings" if name in lab.public.instruments else "quantities"
    return (table, name, "is")


def _values(lab: Lab) -> dict[str, Quantity]:
    found: dict[str, Quantity] = {}
    for name, unit in lab.key.units.items():
        found[name] = Quantity(
            name=name,
            origin=_origin(lab, name),
            unit=unit,
            relation=lab.key.relations.get(name),
            instrument=lab.public.instruments.get(name),
            is_own=name in lab.public.windows,
            draw=lab.key.draws.get(name),
            plausible=lab.key.plausible.get(name),
        )
    return found


def _origin(lab: Lab, name: str) -> Origin:
    if name in lab.public.instruments:
        return Origin.READING
    if name in lab.public.givens:
        return Origin.GIVEN
    return Origin.HIDDEN if name in lab.key.hidden else Origin.DERIVED


def _algebra(
    lab: Lab, weights: AtomicWeights, constants: Mapping[str, Quantity]
) -> tuple[dict[str, Quantity], list[Finding]]:
    """Return the molar masses that are derived, their pieces, and what is wrong."""
    found: dict[str, Quantity] = {}
    wrong: list[Finding] = []
    for species, row in lab.key.pieces.items():
        for formula in piece_formulas(row):
            name = piece_name(formula)
            found[name] = molar_mass_constant(name, formula, weights)
        known = {**constants, **found}
        try:
            derived = _derive(species, row, known)
        except RelationError as error:
            wrong.append((("molar_mass", species, "pieces"), str(error)))
        else:
            found[derived.name] = derived
    return found, wrong


def _derive(species: str, row: MolarMass, known: Mapping[str, Quantity]) -> Quantity:
    name = f"{species}.{MOLAR_MASS}"
    relation = molar_mass_relation(species, row)
    masses = {n: q.constant.value for n, q in known.items() if q.constant is not None}
    check_pieces(relation, masses, masses[name])
    unit = read_unit("g/mol")
    return Quantity(name=name, origin=Origin.DERIVED, unit=unit, relation=relation)
