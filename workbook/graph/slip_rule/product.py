"""A relation taken apart into its factors, and put together again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

from workbook.errors import RelationError
from workbook.relation.tree import (
    RATIO,
    Call,
    Negative,
    Node,
    Number,
    Operation,
    exponent,
    parts,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator


@dataclass(frozen=True, slots=True)
class Factor:
    """Something that a product holds, and how often: -1 below the line."""

    node: Node
    power: int = 1

    def turned(self) -> Factor:
        """
        Return the factor on the other side of the line.

        Returns
        -------
        Factor
            With its power negated.
        """
        return replace(self, power=-self.power)


Factors: TypeAlias = tuple[Factor, ...]


@dataclass(frozen=True, slots=True)
class Product:
    """A product within a relation, as large as it can be."""

    factors: Factors
    #: Gives the whole relation with something else in the product's place.
    put: Callable[[Node], Node]


def factors_of(node: Node) -> Factors:
    """
    Return the factors of a relation.

    Parameters
    ----------
    node : Node
        Any; a sum, a name or a function is one factor.

    Returns
    -------
    tuple of Factor
        In the order of writing.

    Examples
    --------
    >>> from workbook.relation.reader import read_relation
    >>> [factor.power for factor in factors_of(read_relation("a / (b * c^2)"))]
    [1, -1, -2]
    """
    match node:
        case Operation("*", left, right):
            return factors_of(left) + factors_of(right)
        case Operation("/", left, right):
            below = tuple(each.turned() for each in factors_of(right))
            return factors_of(left) + below
        case Operation("^", base, raised):
            return _raised(node, base, raised)
    return (Factor(node),)


def _raised(whole: Node, base: Node, raised: Node) -> Factors:
    try:
        power = exponent(raised)
    except RelationError:
        return (Factor(whole),)
    return tuple(Factor(each.node, each.power * power) for each in factors_of(base))


def product_of(factors: Factors) -> Node:
    """
    Return the relation that some factors make.

    Parameters
    ----------
    factors : tuple of Factor
        A power of 0 stands for nothing.

    Returns
    -------
    Node
        A fraction where there is something below the line; 1 for no factor.
    """
    above = [_power(each.node, each.power) for each in factors if each.power > 0]
    below = [_power(each.node, -each.power) for each in factors if each.power < 0]
    top = _multiplied(above)
    return Operation("/", top, _multiplied(below)) if below else top


def _power(node: Node, power: int) -> Node:
    return node if power == 1 else Operation("^", node, Number(str(power)))


def _multiplied(nodes: list[Node]) -> Node:
    if not nodes:
        return Number("1")
    product, *rest = nodes
    for node in rest:
        product = Operation("*", product, node)
    return product


def products(relation: Node) -> Iterator[Product]:
    """
    Give every product within a relation, none of them part of another.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    iterator of Product
        The outermost first; the terms of a sum are products of their own.
    """
    yield from _within(relation, lambda node: node)


def _within(node: Node, put: Callable[[Node], Node]) -> Iterator[Product]:
    factors = factors_of(node)
    yield Product(factors, put)
    for at, factor in enumerate(factors):
        yield from _terms(factor.node, partial(_put_factor, put, factors, at))


def _put_factor(
    put: Callable[[Node], Node], factors: Factors, at: int, node: Node
) -> Node:
    changed = replace(factors[at], node=node)
    return put(product_of((*factors[:at], changed, *factors[at + 1 :])))


def _terms(node: Node, put: Callable[[Node], Node]) -> Iterator[Product]:
    """Give the products in the parts of what is no product itself."""
    if isinstance(node, Operation) and node.sign in {"*", "/"}:
        return
    if isinstance(node, Call) and node.name == RATIO:
        return
    for at, part in enumerate(parts(node)):
        yield from _within(part, partial(_put_part, put, node, at))


def _put_part(put: Callable[[Node], Node], node: Node, at: int, part: Node) -> Node:
    before = parts(node)
    return put(with_parts(node, (*before[:at], part, *before[at + 1 :])))


def with_parts(node: Node, new: tuple[Node, ...]) -> Node:
    """
    Return a node of the same kind with other parts.

    Parameters
    ----------
    node : Node
        What is to be built anew.
    new : tuple of Node
        As many as `workbook.relation.tree.parts` gives of it.

    Returns
    -------
    Node
        The node itself where it has no parts.
    """
    match node:
        case Operation(sign=sign):
            left, right = new
            return Operation(sign, left, right)
        case Negative():
            return Negative(*new)
        case Call(name=name):
            return Call(name, new)
    return node


def replace_node(relation: Node, old: Node, new: Node) -> Node:
    """
    Return a relation with one of its parts replaced wherever it stands.

    Parameters
    ----------
    relation : Node
        The relation.
    old, new : Node
        What goes, and what comes.

    Returns
    -------
    Node
        The same where *old* does not stand in it.

    Examples
    --------
    >>> from workbook.relation.tree import Name
    >>> replace_node(Operation("+", Name("a"), Name("b")), Name("a"), Name("c")).left
    Name(text='c')
    """
    if relation == old:
        return new
    changed = tuple(replace_node(part, old, new) for part in parts(relation))
    return with_parts(relation, changed)
