"""A lab to its graph of quantities."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.algebra import molar_mass_relation, piece_formulas, piece_name
from workbook.graph.dimension import check_dimensions
from workbook.graph.order import order
from workbook.graph.quantity import Graph, Origin, Quantity
from workbook.labfile.offer import MOLAR_MASS_PLACE
from workbook.matter.elements import TABLES, load_weights
from workbook.matter.formula import molar_mass, read_formula
from workbook.measure.figures import Known
from workbook.measure.units import ONE, read_unit

if TYPE_CHECKING:
    from workbook.labfile.half import Lab
    from workbook.labfile.schema import Species
    from workbook.matter.elements import AtomicWeights
    from workbook.measure.written import Written


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
        If quantities go in a circle, or a relation's dimension is not that of
        its quantity.
    """
    nodes = _constants(lab, weights) | _values(lab) | _algebra(lab, weights)
    relations = {n: q.relation for n, q in nodes.items() if q.relation is not None}
    first = order(relations, lab)
    rest = sorted(set(nodes) - set(first))
    graph = Graph(
        lab=lab, weights=weights, quantities={n: nodes[n] for n in (*rest, *first)}
    )
    check_dimensions(graph)
    return graph


def _values(lab: Lab) -> dict[str, Quantity]:
    found: dict[str, Quantity] = {}
    for name, unit in lab.key.units.items():
        found[name] = Quantity(
            name=name,
            origin=_origin(lab, name),
            unit=unit,
            relation=lab.key.relations.get(name),
            instrument=lab.public.instruments.get(name),
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


def _algebra(lab: Lab, weights: AtomicWeights) -> dict[str, Quantity]:
    """Return the molar masses that are derived, and the pieces they are made from."""
    found: dict[str, Quantity] = {}
    for species, row in lab.key.pieces.items():
        wanted = f"{species}.molar_mass"
        found[wanted] = Quantity(
            name=wanted,
            origin=Origin.DERIVED,
            unit=read_unit("g/mol"),
            relation=molar_mass_relation(lab, species),
        )
        for formula in piece_formulas(row):
            name = piece_name(formula)
            found[name] = molar_mass_constant(name, formula, weights)
    return found


def _constants(lab: Lab, weights: AtomicWeights) -> dict[str, Quantity]:
    found: dict[str, Quantity] = {}
    for key, species in lab.public.species.items():
        if species.formula is not None:
            name = f"{key}.molar_mass"
            found[name] = molar_mass_constant(name, species.formula, weights)
        for suffix, written in _properties(species).items():
            name = f"{key}.{suffix}"
            found[name] = _property(name, written)
    return found


def _properties(species: Species) -> dict[str, Written]:
    found: dict[str, Written | None] = {}
    if species.density is not None:
        found["density"] = species.density.value
    if bottle := species.solution:
        found |= {
            "molarity": bottle.molarity,
            "mass_fraction": bottle.mass_fraction,
            "mass_per_volume": bottle.mass_per_volume,
            "solution_density": bottle.density,
        }
    return {suffix: w for suffix, w in found.items() if w is not None}


def _property(name: str, written: Written) -> Quantity:
    unit = written.unit or ONE
    known = Known(written.value, written.place)
    if name.endswith(".mass_fraction"):
        # It acts as a fraction in a relation: 20.0 % is 0.200.
        unit, known = ONE, known / Known(Decimal(100), None)
    return Quantity(name=name, origin=Origin.CONSTANT, unit=unit, constant=known)


def molar_mass_constant(name: str, formula: str, weights: AtomicWeights) -> Quantity:
    """
    Return a molar mass as a constant of the graph.

    Its spread covers what honest students do: use another of the tables, and
    print to two decimals.

    Parameters
    ----------
    name : str
        The constant's name.
    formula : str
        A formula that reads.
    weights : AtomicWeights
        The table that the course has chosen.

    Returns
    -------
    Quantity
        With value and spread [g/mol].
    """
    read = read_formula(formula)
    value = molar_mass(read, weights)
    others = (molar_mass(read, load_weights(table)) for table in TABLES)
    printing = Decimal("0.5").scaleb(MOLAR_MASS_PLACE)
    spread = max(abs(other - value) for other in others) + printing
    return Quantity(
        name=name,
        origin=Origin.CONSTANT,
        unit=read_unit("g/mol"),
        constant=Known(value, MOLAR_MASS_PLACE),
        spread=float(spread),
    )
