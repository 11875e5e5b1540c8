"""A relation as a SymPy expression in which every coefficient is a number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.expression import to_sympy
from workbook.relation.tree import Call, Negative, Node, Number, Operation

if TYPE_CHECKING:
    import sympy

    from workbook.graph.quantity import Graph


def to_symbols(graph: Graph, relation: Node) -> sympy.Expr:
    """
    Return a relation as an expression in the names of quantities.

    Parameters
    ----------
    graph : Graph
        For the coefficients that ``ratio`` stands for.
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    sympy.Expr
        One symbol for each name, dots included; exact numbers.

    Raises
    ------
    LookupError
        If a ratio's species do not stand in exactly one equation.
    """
    return to_sympy(write_out_ratios(graph, relation))


def write_out_ratios(graph: Graph, relation: Node) -> Node:
    """
    Return a relation with each ``ratio`` replaced by its two coefficients.

    Parameters
    ----------
    graph : Graph
        Where the equations are.
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    Node
        Without a ``ratio``.

    Raises
    ------
    LookupError
        If a ratio's species do not stand in exactly one equation.
    """
    match relation:
        case Call("ratio", arguments):
            ratio = graph.ratio(*(getattr(each, "text", "") for each in arguments))
            top, bottom = Number(str(ratio.numerator)), Number(str(ratio.denominator))
            written: Node = Operation("/", top, bottom)
        case Call(name, arguments):
            each = tuple(write_out_ratios(graph, argument) for argument in arguments)
            written = Call(name, each)
        case Operation(sign, left, right):
            sides = (write_out_ratios(graph, side) for side in (left, right))
            written = Operation(sign, *sides)
        case Negative(of):
            written = Negative(write_out_ratios(graph, of))
        case _:
            written = relation
    return written
