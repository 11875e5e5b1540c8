"""The dimension of every relation, checked once, when a lab is read."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from math import prod
from typing import TYPE_CHECKING

from workbook.errors import DimensionError, MatterError
from workbook.labfile.constant import MOLAR_MASS, written_constants
from workbook.labfile.instrument import find_instrument
from workbook.measure.units import ONE, PERCENT, Unit, check_dimension, read_unit
from workbook.relation.tree import RATIO, Algebra, evaluate, names

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile
    from workbook.relation.tree import Node


#: In the order of a dimension's powers.
_BASE_UNITS = ("g", "cm", "mol", "s", "K", "%")


@dataclass(frozen=True, slots=True)
class _Measured:
    """Something of which only the unit is known; it obeys the rules of dimensions."""

    unit: Unit

    def __mul__(self, other: _Measured) -> _Measured:
        return _Measured(self.unit * other.unit)

    def __truediv__(self, other: _Measured) -> _Measured:
        return _Measured(self.unit / other.unit)

    def __pow__(self, exponent: int) -> _Measured:
        return _Measured(self.unit**exponent)

    def __add__(self, other: _Measured) -> _Measured:
        check_dimension(other.unit, self.unit)
        return self

    def __sub__(self, other: _Measured) -> _Measured:
        return self + other

    def __neg__(self) -> _Measured:
        return self


_NUMBER = _Measured(ONE)


def _call(name: str, arguments: tuple[_Measured | str, ...]) -> _Measured:
    if name == RATIO:
        return _NUMBER
    first, *rest = (each for each in arguments if isinstance(each, _Measured))
    if name == "sqrt":
        return _Measured(_root(first.unit))
    if name in {"exp10", "log10"}:
        check_dimension(first.unit, ONE)
    for other in rest:
        check_dimension(other.unit, first.unit)
    return first


def _root(unit: Unit) -> Unit:
    """Return a unit of what a root measures; only a square has one."""
    bases = (read_unit(symbol) ** power for symbol, power in _half_powers(unit))
    return prod(bases, start=ONE)


def _half_powers(unit: Unit) -> Iterator[tuple[str, int]]:
    """Halve the powers of the base units; what is no square is refused as a number."""
    for symbol, power in zip(_BASE_UNITS, unit.dimension.powers, strict=True):
        if power % 2:
            check_dimension(unit, ONE)
        yield symbol, power // 2


def unit_of(relation: Node, units: Mapping[str, Unit]) -> Unit:
    """
    Return the unit that a relation comes to.

    Parameters
    ----------
    relation : Node
        The right-hand side.
    units : mapping of str to Unit
        The unit of every name that it uses. A percentage stands in a relation as
        the plain number of per cent, so 100 is written out.

    Returns
    -------
    Unit
        Of the right dimension; its symbol is put together from the parts.

    Raises
    ------
    DimensionError
        If unlike things are added or compared, a logarithm is taken of what has a
        unit, or a root of what is no square.

    Examples
    --------
    >>> from workbook.measure.units import read_unit
    >>> from workbook.relation.reader import read_relation
    >>> units = {"volume": read_unit("mL"), "density": read_unit("g/mL")}
    >>> unit_of(read_relation("volume * density"), units).symbol
    'g'
    """

    def name(text: str) -> _Measured:
        return _Measured(_plain(units[text]))

    return evaluate(relation, Algebra(lambda _: _NUMBER, name, _call)).unit


def _plain(unit: Unit) -> Unit:
    return ONE if unit.dimension == PERCENT.dimension else unit


def explain_dimension(name: str, relation: Node, units: Mapping[str, Unit]) -> str:
    """
    Return why a relation can't give what its quantity's unit measures.

    Parameters
    ----------
    name : str
        The quantity.
    relation : Node
        What gives it.
    units : mapping of str to Unit
        The unit of the quantity and of every name that the relation uses.

    Returns
    -------
    str
        A sentence; empty where nothing is wrong.
    """
    unit = units[name]
    try:
        found = unit_of(relation, units)
    except DimensionError as error:
        return f"{name!r} adds, compares or takes a function of unlike things: {error}"
    if found.dimension == _plain(unit).dimension:
        return ""
    return (
        f"the unit of {name!r} is {unit.symbol!r}, but its relation gives "
        f"{found.symbol!r}. Change the one or the other."
    )


def relations_measure(file: LabFile) -> Iterator[Finding]:
    """
    Find relations of a wrong dimension, also in a file that no graph can be made of.

    Parameters
    ----------
    file : LabFile
        The file, its tables read; a relation that uses unknown names is passed over.

    Returns
    -------
    iterator of Finding
        At most one for each relation.
    """
    units = _units_of(file)
    relations = [("readings", n, row.relation) for n, row in file.readings.items()]
    relations += [("quantities", n, row.relation) for n, row in file.quantities.items()]
    for table, name, relation in relations:
        if relation is not None and {name, *names(relation)} <= set(units):
            sentence = explain_dimension(name, relation, units)
            if sentence:
                yield (table, name, "is"), sentence


def _units_of(file: LabFile) -> dict[str, Unit]:
    units = {name: row.unit for name, row in file.quantities.items()}
    units |= {name: row.span.unit for name, row in file.givens.items()}
    units |= {name: row.draw.unit for name, row in file.hidden.items()}
    for name, reading in file.readings.items():
        with suppress(MatterError):  # told by the rule on readings
            units[name] = find_instrument(reading.instrument).unit
    for key, species in file.species.items():
        if species.formula is not None:
            units[f"{key}.{MOLAR_MASS}"] = read_unit("g/mol")
        for suffix, written in written_constants(species).items():
            units[f"{key}.{suffix}"] = written.unit or ONE
    return units
