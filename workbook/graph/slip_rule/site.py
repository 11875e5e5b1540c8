"""Places in a relation, and how something else is put there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.relation.tree import RATIO, Call, Negative, Node, Operation, parts

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class Site:
    """Where something stands in a relation: the way down, part by part."""

    path: tuple[int, ...] = ()

    def below(self, at: int) -> Site:
        """
        Return the place of a part of what stands here.

        Parameters
        ----------
        at : int
            Which part, counted from 0 [-].

        Returns
        -------
        Site
            One step further down.
        """
        return Site((*self.path, at))

    def put(self, relation: Node, node: Node) -> Node:
        """
        Return a relation with something else at this place.

        Parameters
        ----------
        relation : Node
            The relation in which the place is.
        node : Node
            What comes there.

        Returns
        -------
        Node
            Otherwise the same.

        Examples
        --------
        >>> from workbook.relation.tree import Name
        >>> halves = Operation("/", Name("a"), Name("b"))
        >>> Site((1,)).put(halves, Name("c")).right
        Name(text='c')
        """
        if not self.path:
            return node
        at, *rest = self.path
        before = parts(relation)
        inner = Site(tuple(rest)).put(before[at], node)
        return with_parts(relation, (*before[:at], inner, *before[at + 1 :]))


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


def sites(relation: Node) -> Iterator[tuple[Node, Site]]:
    """
    Give every node of a relation with its place.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    iterator of (Node, Site)
        Each before its parts; the species of a ``ratio`` are left out.
    """
    yield from _sites(relation, Site())


def _sites(node: Node, site: Site) -> Iterator[tuple[Node, Site]]:
    yield node, site
    if not is_ratio(node):
        for at, part in enumerate(parts(node)):
            yield from _sites(part, site.below(at))


def is_ratio(node: Node) -> bool:
    """
    Tell whether a node is two coefficients.

    Parameters
    ----------
    node : Node
        Any.

    Returns
    -------
    bool
        True for ``ratio(a, b)``, whose parts have no value.
    """
    return isinstance(node, Call) and node.name == RATIO
