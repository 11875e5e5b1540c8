"""A relation taken apart into its factors, and put together again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

from workbook.graph.slip_rule.site import Site, is_ratio
from workbook.relation.tree import Node, Number, Operation, exponent, parts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.relation.tree import Sign


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
    site: Site


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
            power = exponent(raised)
            return tuple(Factor(f.node, f.power * power) for f in factors_of(base))
    return (Factor(node),)


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
        One factor after the other, as on a calculator; it starts with the first that
        stands above the line, and is 1 for no factor.
    """
    counted = [each for each in factors if each.power]
    first = next((each for each in counted if each.power > 0), None)
    product: Node = Number("1") if first is None else _power(first.node, first.power)
    for each in counted:
        if each is not first:
            sign: Sign = "*" if each.power > 0 else "/"
            product = Operation(sign, product, _power(each.node, abs(each.power)))
    return product


def _power(node: Node, power: int) -> Node:
    return node if power == 1 else Operation("^", node, Number(str(power)))


def products(relation: Node) -> Iterator[Product]:
    """
    Give every product within a relation, none of them a part of another.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    iterator of Product
        The outermost first; the terms of a sum are products of their own.
    """
    yield from _products(relation, Site(), inside=False)


def _products(node: Node, site: Site, *, inside: bool) -> Iterator[Product]:
    if not inside:
        yield Product(factors_of(node), site)
    if is_ratio(node):
        return
    goes_on = isinstance(node, Operation) and node.sign in {"*", "/", "^"}
    for at, part in enumerate(parts(node)):
        yield from _products(part, site.below(at), inside=goes_on)
