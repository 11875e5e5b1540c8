"""A relation taken apart into the terms of a sum, and put together again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

from workbook.graph.slip_rule.site import Site, is_ratio
from workbook.relation.tree import Negative, Node, Number, Operation, parts

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class Term:
    """What a sum holds, with its sign."""

    node: Node
    sign: int = 1

    def turned(self) -> Term:
        """
        Return the term with the other sign.

        Returns
        -------
        Term
            Taken off where it was added.
        """
        return replace(self, sign=-self.sign)


Terms: TypeAlias = tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum within a relation, as large as it can be."""

    terms: Terms
    site: Site


def terms_of(node: Node) -> Terms:
    """
    Return the terms of a relation.

    Parameters
    ----------
    node : Node
        Any; what is no sum is one term.

    Returns
    -------
    tuple of Term
        In the order of writing.

    Examples
    --------
    >>> from workbook.relation.reader import read_relation
    >>> [term.sign for term in terms_of(read_relation("a - (b - c)"))]
    [1, -1, 1]
    """
    match node:
        case Operation("+", left, right):
            return terms_of(left) + terms_of(right)
        case Operation("-", left, right):
            return terms_of(left) + tuple(term.turned() for term in terms_of(right))
        case Negative(of):
            return tuple(term.turned() for term in terms_of(of))
    return (Term(node),)


def sum_of(terms: Terms) -> Node:
    """
    Return the relation that some terms make.

    Parameters
    ----------
    terms : tuple of Term
        Any number of them.

    Returns
    -------
    Node
        What is added first, then what is taken off; 0 for no term.
    """
    if not terms:
        return Number("0")
    first, *rest = sorted(terms, key=lambda term: -term.sign)
    total: Node = first.node if first.sign > 0 else Negative(first.node)
    for term in rest:
        total = Operation("+" if term.sign > 0 else "-", total, term.node)
    return total


def sums(relation: Node) -> Iterator[Sum]:
    """
    Give every sum within a relation, none of them a part of another.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    iterator of Sum
        With two terms at least, the outermost first.
    """
    yield from _sums(relation, Site(), inside=False)


def _sums(node: Node, site: Site, *, inside: bool) -> Iterator[Sum]:
    terms = terms_of(node)
    if not inside and len(terms) > 1:
        yield Sum(terms, site)
    if is_ratio(node):
        return
    for at, part in enumerate(parts(node)):
        yield from _sums(part, site.below(at), inside=len(terms) > 1)
