"""The constants of a graph: what the species of a lab bring, with honest spreads."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin, Quantity
from workbook.labfile.constant import MOLAR_MASS, written_constants
from workbook.labfile.offer import MOLAR_MASS_PLACE
from workbook.matter.elements import TABLES, load_weights
from workbook.matter.formula import molar_mass, read_formula
from workbook.measure.figures import Known
from workbook.measure.units import ONE, PERCENT, read_unit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.labfile.schema import Species
    from workbook.matter.elements import AtomicWeights
    from workbook.measure.written import Written


def make_constants(
    species: Mapping[str, Species], weights: AtomicWeights
) -> dict[str, Quantity]:
    """
    Return the constants of all species.

    Parameters
    ----------
    species : mapping of str to Species
        By name.
    weights : AtomicWeights
        The table that the course has chosen.

    Returns
    -------
    dict of str to Quantity
        By dotted name, as relations use it.
    """
    found: dict[str, Quantity] = {}
    for key, each in species.items():
        if each.formula is not None:
            name = f"{key}.{MOLAR_MASS}"
            found[name] = molar_mass_constant(name, each.formula, weights)
        for suffix, written in written_constants(each).items():
            name = f"{key}.{suffix}"
            found[name] = _written_constant(name, written)
    return found


def _written_constant(name: str, written: Written) -> Quantity:
    unit = written.unit or ONE
    known = Known(written.value, written.place)
    if unit == PERCENT:
        # A share acts as a fraction in a relation: 20.0 % is 0.200.
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
