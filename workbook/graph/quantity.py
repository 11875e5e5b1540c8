"""One quantity of a lab, and the graph that they make together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import TYPE_CHECKING, TypeVar

from workbook.labfile.reaction import meant_equations

if TYPE_CHECKING:
    from collections.abc import Mapping

    import numpy as np
    from numpy.typing import NDArray

    from workbook.labfile.field import DrawRange
    from workbook.labfile.half import Lab
    from workbook.labfile.instrument import Instrument
    from workbook.matter.elements import AtomicWeights
    from workbook.matter.equation import Equation
    from workbook.measure.figures import Known
    from workbook.measure.units import Unit
    from workbook.relation.tree import Node

ArrayOrFloat = TypeVar("ArrayOrFloat", float, "NDArray[np.float64]")


class Origin(Enum):
    """Where the value of a quantity comes from."""

    #: A property of a substance: the same for every student.
    CONSTANT = "constant"
    #: Drawn, and printed on the sheet.
    GIVEN = "given"
    #: Drawn or derived, and taken off an instrument.
    READING = "reading"
    #: Drawn, and never shown.
    HIDDEN = "hidden"
    #: It follows from others.
    DERIVED = "derived"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A node of the graph."""

    name: str
    origin: Origin
    #: The unit in which it is shown and asked.
    unit: Unit
    #: What gives it; None for a constant and for what is drawn.
    relation: Node | None = None
    #: A constant's value in `unit`, with the figures that it is printed to.
    constant: Known | None = None
    #: How far an honest choice of atomic weights moves a constant, in `unit`.
    spread: float = 0.0
    instrument: Instrument | None = None
    #: True for what students bring from their own bench.
    is_own: bool = False
    draw: DrawRange | None = None
    plausible: DrawRange | None = None

    def to_base(self, value: ArrayOrFloat) -> ArrayOrFloat:
        """
        Return a value in base units.

        Parameters
        ----------
        value : float or array
            In `unit`; of a temperature, where it lies on its scale.

        Returns
        -------
        float or array
            In g, cm, mol, s, K and %, in which relations are worked out.
        """
        return value * float(self.unit.factor) + float(self.unit.offset)

    def from_base(self, value: ArrayOrFloat) -> ArrayOrFloat:
        """
        Return a value in the quantity's own unit.

        Parameters
        ----------
        value : float or array
            In base units.

        Returns
        -------
        float or array
            In `unit`.
        """
        return (value - float(self.unit.offset)) / float(self.unit.factor)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Graph:
    """The quantities of a lab, each after those that it follows from."""

    lab: Lab
    weights: AtomicWeights
    quantities: Mapping[str, Quantity]

    def equation_of(self, *species: str, reaction: str = "") -> Equation:
        """
        Return the one equation in which some species stand.

        Parameters
        ----------
        *species : str
            Names of species, two at least.
        reaction : str
            Which equation is meant, where several hold them: the name of its table, or
            `OWN_REACTION`. Empty where one alone does.

        Returns
        -------
        Equation
            Balanced.

        Raises
        ------
        LookupError
            If no equation, or more than one, holds them.
        """
        equations = meant_equations(self.lab.public.equations, reaction)
        found = [e for e in equations.values() if set(species) <= set(e.species)]
        if len(found) != 1:
            msg = (
                f"ratio({', '.join(species)}): {len(found)} equations hold both; "
                "exactly one must."
            )
            raise LookupError(msg)
        return found[0]

    def ratio(self, of: str, to: str, reaction: str = "") -> Fraction:
        """
        Return the coefficient of one species over that of another.

        Parameters
        ----------
        of, to : str
            Names of species.
        reaction : str
            As for `equation_of`.

        Returns
        -------
        Fraction
            Exact [-].

        Raises
        ------
        LookupError
            If no equation, or more than one, holds both.

        Notes
        -----
        A species has the ratio 1 to itself, in however many equations it stands.
        """
        if of == to:
            return Fraction(1)
        return self.equation_of(of, to, reaction=reaction).ratio(of, to)
