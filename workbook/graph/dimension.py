"""The dimension of every relation, checked once, when a lab is read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.errors import AuthorError
from workbook.measure.units import ONE, PERCENT, Unit
from workbook.relation.tree import Algebra, Number, evaluate

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph
    from workbook.relation.tree import Node


class UnlikeError(ValueError):
    """Two things of unlike dimension are added, compared, or used as a number."""


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
        return self._like(other, "added to")

    def __sub__(self, other: _Measured) -> _Measured:
        return self._like(other, "taken from")

    def __neg__(self) -> _Measured:
        return self

    def _like(self, other: _Measured, how: str) -> _Measured:
        if self.unit.dimension != other.unit.dimension:
            msg = f"{other.unit.symbol} is {how} {self.unit.symbol}"
            raise UnlikeError(msg)
        return self


def _call(name: str, arguments: tuple[_Measured | str, ...]) -> _Measured:
    if name == "ratio":
        return _Measured(ONE)
    first, *rest = (each for each in arguments if isinstance(each, _Measured))
    for other in rest:
        first._like(other, "compared with")  # noqa: SLF001  its own module
    if name == "log10" and first.unit.dimension != ONE.dimension:
        msg = f"the logarithm of {first.unit.symbol} is taken"
        raise UnlikeError(msg)
    if name == "sqrt":
        msg = "a root has no unit here; write the relation without it"
        if first.unit.dimension != ONE.dimension:
            raise UnlikeError(msg)
    return first


def _number(_: Number) -> _Measured:
    return _Measured(ONE)


def unit_of(relation: Node, units: Mapping[str, Unit]) -> Unit:
    """
    Return the unit that a relation comes to.

    Parameters
    ----------
    relation : Node
        The right-hand side.
    units : mapping of str to Unit
        The unit of every name that it uses.

    Returns
    -------
    Unit
        Of the right dimension; its symbol is put together from the parts.

    Raises
    ------
    UnlikeError
        If unlike things are added or compared, with both units in the text.
    """
    algebra = Algebra(_number, lambda name: _Measured(units[name]), _call)
    return evaluate(relation, algebra).unit


def check_dimensions(graph: Graph) -> None:
    """
    Check that each relation gives what its quantity's unit measures.

    Parameters
    ----------
    graph : Graph
        Every name defined.

    Raises
    ------
    AuthorError
        With a finding for each relation that is wrong.
    """
    units = {name: quantity.unit for name, quantity in graph.quantities.items()}
    findings = []
    for name, relation in graph.lab.key.relations.items():
        sentence = _wrong(relation, units[name], units)
        if sentence:
            table = "readings" if name in graph.lab.public.instruments else "quantities"
            line = graph.lab.located.line((table, name, "is"))
            findings.append(f"{graph.lab.path}:{line}: {name!r}: {sentence}")
    if findings:
        raise AuthorError(tuple(findings))


def _wrong(relation: Node, unit: Unit, units: Mapping[str, Unit]) -> str:
    try:
        found = unit_of(relation, units)
    except UnlikeError as error:
        return f"{error}; both sides must measure the same."
    # A percentage is written out, 100 * part / whole, which is a bare number.
    wanted = ONE if unit.dimension == PERCENT.dimension else unit
    if found.dimension == wanted.dimension:
        return ""
    return (
        f"its unit is {unit.symbol!r}, but its relation gives {found.symbol!r}. "
        "Change the one or the other."
    )
