"""The step in which a mistake is made: its relation as the student works it out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from workbook.graph.quantity import Origin
from workbook.graph.slip_rule.kind import SlipKind
from workbook.graph.slip_rule.site import replace_node
from workbook.measure.units import read_unit
from workbook.relation.tree import RATIO, Call, Name, Node, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Graph
    from workbook.matter.equation import Equation
    from workbook.measure.dimension import Dimension

#: A mistake, and what the relation becomes by it.
Found: TypeAlias = tuple[SlipKind, Node]

#: The role of a factor that is no constant and no ratio.
VALUE = "value"

MASS, VOLUME, AMOUNT = (read_unit(unit).dimension for unit in ("g", "mL", "mol"))
PERCENTAGE = read_unit("%").dimension
TEMPERATURE = read_unit("K").dimension


@dataclass(frozen=True, slots=True)
class Step:
    """One asked quantity, with the graph that it stands in."""

    graph: Graph
    name: str
    #: What is worked out in this step: quantities that no step asks for are put in.
    relation: Node

    @property
    def measures(self) -> Dimension:
        """The dimension of what is asked."""
        return self.dimension(self.name)

    @property
    def is_chain(self) -> bool:
        """Whether the step is answered by placing factors that are offered."""
        asks = self.graph.lab.public.asks
        return any(ask.of == self.name and ask.kind == "chain" for ask in asks)

    def dimension(self, name: str) -> Dimension:
        """
        Return what a quantity measures.

        Parameters
        ----------
        name : str
            A name of the graph.

        Returns
        -------
        Dimension
            Of its unit.
        """
        return self.graph.quantities[name].unit.dimension

    def role(self, node: Node) -> str:
        """
        Return what a factor is.

        Parameters
        ----------
        node : Node
            A factor of the relation.

        Returns
        -------
        str
            ``"density"``, ``"molar_mass"`` and the like for a constant, ``"ratio"``,
            ``"value"`` for any other quantity; empty for the rest.
        """
        match node:
            case Call("ratio", _):
                return RATIO
            case Name(text) if self.graph.quantities[text].origin is Origin.CONSTANT:
                return text.partition(".")[2]
            case Name(text):
                return text.partition(".")[2] or VALUE
        return ""

    def species(self, name: str) -> str:
        """
        Return the substance that a quantity belongs to.

        Parameters
        ----------
        name : str
            A name of the graph.

        Returns
        -------
        str
            A species, also where it stands for its solution; empty for none.
        """
        before, dot, _ = name.partition(".")
        if dot:
            return before
        label = self.graph.lab.public.labels.get(name)
        return ((label.of if label else None) or "").partition(".")[0]

    def opened(self, name: str) -> Node | None:
        """
        Return what an earlier step works out.

        Parameters
        ----------
        name : str
            A quantity that this step uses.

        Returns
        -------
        Node or None
            None for what does not follow from others, and for a reading.
        """
        quantity = self.graph.quantities[name]
        if quantity.origin is not Origin.DERIVED or quantity.relation is None:
            return None
        return open_unasked(self.graph, quantity.relation)

    def earlier(self, relation: Node) -> Iterator[str]:
        """
        Give the quantities that a relation rests on, however far back.

        Parameters
        ----------
        relation : Node
            Any relation of this graph.

        Returns
        -------
        iterator of str
            Each once, the nearest first; constants are left out, and so is what
            lies behind a reading.
        """
        waiting, seen = list(names(relation)), set[str]()
        while waiting:
            name = waiting.pop(0)
            if name in seen or self.graph.quantities[name].origin is Origin.CONSTANT:
                continue
            seen.add(name)
            yield name
            if (behind := self.opened(name)) is not None:
                waiting += names(behind)

    def equations_of(self, species: str) -> Iterator[Equation]:
        """
        Give the equations in which a substance stands.

        Parameters
        ----------
        species : str
            A name of the lab file.

        Returns
        -------
        iterator of Equation
            Balanced, in the order of the lab file.
        """
        for equation in self.graph.lab.public.equations.values():
            if species in equation.species:
                yield equation


def open_unasked(graph: Graph, relation: Node) -> Node:
    """
    Return a relation with what no step asks for put in.

    Parameters
    ----------
    graph : Graph
        The lab.
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    Node
        In what is asked, shown or constant.
    """
    asked = graph.lab.public.asked
    for name in names(relation):
        quantity = graph.quantities[name]
        is_open = quantity.origin is Origin.DERIVED and name not in asked
        if is_open and quantity.relation is not None:
            inner = open_unasked(graph, quantity.relation)
            relation = replace_node(relation, Name(name), inner)
    return relation


def ratio_species(node: Node) -> tuple[str, ...]:
    """
    Return the two species of a ratio.

    Parameters
    ----------
    node : Node
        Any.

    Returns
    -------
    tuple of str
        Two names; empty for what is no ratio.
    """
    match node:
        case Call("ratio", (Name(of), Name(to), *_)):
            return of, to
    return ()


def ratio_equation(graph: Graph, call: Call) -> Equation:
    """
    Return the equation whose coefficients a ratio takes.

    Parameters
    ----------
    graph : Graph
        Where the equations are.
    call : Call
        A ratio, with the name of its reaction or without.

    Returns
    -------
    Equation
        Balanced.
    """
    of, to, *reaction = (each.text for each in call.arguments if isinstance(each, Name))
    return graph.equation_of(of, to, reaction="".join(reaction))
