"""
Setting a syntax tree in two dimensions, whatever language says it to a reader.

The order of what was written is kept, a division becomes a fraction, and brackets
stand only where the tree would be another without them. How a fraction, a power or a
bracket is written is said by a `Notation`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from workbook.relation.tree import Call, Equality, Name, Negative, Number, Operation

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.relation.tree import Node, Sign

# How tightly a node holds together: a looser one inside a tighter one is bracketed.
_SUM, _NEGATIVE, _PRODUCT, _POWER, _WHOLE = range(5)
_TIGHTNESS: Mapping[Sign, int] = {
    "+": _SUM,
    "-": _SUM,
    "*": _PRODUCT,
    "/": _POWER,
    "^": _POWER,
}


class Notation(Protocol):
    """How the pieces of a relation are written; each piece is a text already set."""

    def number(self, figures: str, power: str) -> str:
        """
        Set a number.

        Parameters
        ----------
        figures : str
            As typed.
        power : str
            The power of ten, with its minus if it has one; empty for none.

        Returns
        -------
        str
            The number.
        """

    def name(self, text: str) -> str:
        """
        Set a name.

        Parameters
        ----------
        text : str
            As `tree.Name` holds it.

        Returns
        -------
        str
            The name.
        """

    def row(self, left: str, sign: str, right: str) -> str:
        """
        Set a sign with what stands on its sides.

        Parameters
        ----------
        left : str
            Empty before a minus sign that has nothing on its left.
        sign : str
            ``+``, ``-`` or ``=``.
        right : str
            What follows.

        Returns
        -------
        str
            All three.
        """

    def product(self, left: str, right: str, *, is_close: bool) -> str:
        """
        Set two factors.

        Parameters
        ----------
        left, right : str
            The factors.
        is_close : bool
            True when a number stands before a word or a bracket, so that no sign is
            needed between them.

        Returns
        -------
        str
            The product.
        """

    def fraction(self, top: str, bottom: str) -> str:
        """
        Set one thing over another.

        Parameters
        ----------
        top, bottom : str
            What stands over and under the line.

        Returns
        -------
        str
            The fraction.
        """

    def power(self, of: str, exponent: str) -> str:
        """
        Set a power.

        Parameters
        ----------
        of, exponent : str
            What is raised, and to what.

        Returns
        -------
        str
            The power.
        """

    def call(self, name: str, arguments: Sequence[str]) -> str:
        """
        Set a function.

        Parameters
        ----------
        name : str
            One that the relation language knows.
        arguments : sequence of str
            What it is taken of.

        Returns
        -------
        str
            The function with its arguments.
        """

    def bracket(self, of: str) -> str:
        """
        Set brackets around something.

        Parameters
        ----------
        of : str
            What stands between them.

        Returns
        -------
        str
            With its brackets.
        """


def set_tree(node: Node | Equality, notation: Notation) -> str:
    """
    Return a tree as a notation writes it.

    Parameters
    ----------
    node : Node or Equality
        The tree.
    notation : Notation
        How each piece is written.

    Returns
    -------
    str
        The whole.
    """
    if isinstance(node, Equality):
        left, right = (set_tree(side, notation) for side in (node.left, node.right))
        return notation.row(left, "=", right)
    return _Setter(notation).show(node)


class _Setter:
    def __init__(self, notation: Notation) -> None:
        self._notation = notation

    def show(self, node: Node) -> str:
        match node:
            case Number(text):
                figures, _, power = text.lower().partition("e")
                shown = self._notation.number(figures, power.removeprefix("+"))
            case Name(text):
                shown = self._notation.name(text)
            case Negative(of):
                shown = self._notation.row("", "-", self._after_sign(of, _PRODUCT))
            case Call(name, arguments):
                shown = self._notation.call(name, [*map(self.show, arguments)])
            case _:
                shown = self._operation(node)
        return shown

    def _operation(self, node: Operation) -> str:
        if node.sign == "/":
            return self._notation.fraction(self.show(node.left), self.show(node.right))
        if node.sign == "^":
            of = self._within(node.left, _WHOLE)
            return self._notation.power(of, self.show(node.right))
        if node.sign == "*":
            return self._product(node)
        tightness = _SUM if node.sign == "+" else _NEGATIVE
        right = self._after_sign(node.right, tightness)
        return self._notation.row(self.show(node.left), node.sign, right)

    def _product(self, node: Operation) -> str:
        left = self._within(node.left, _NEGATIVE)
        right = self._after_sign(node.right, _PRODUCT)
        is_close = _is_number(node.left) and _starts_with_word(node.right)
        return self._notation.product(left, right, is_close=is_close)

    def _within(self, node: Node, tightness: int) -> str:
        shown = self.show(node)
        is_tight = _tightness(node) >= tightness
        return shown if is_tight else self._notation.bracket(shown)

    def _after_sign(self, node: Node, tightness: int) -> str:
        """Set a node so that no minus follows another sign."""
        is_bare = _tightness(node) >= tightness and _starts_with_minus(node)
        shown = self._within(node, tightness)
        return self._notation.bracket(shown) if is_bare else shown


def _tightness(node: Node) -> int:
    match node:
        case Negative():
            tightness = _NEGATIVE
        case Operation():
            tightness = _TIGHTNESS[node.sign]
        case Number():
            tightness = _PRODUCT if "e" in node.text.lower() else _WHOLE
        case Name():
            tightness = _POWER if "(" in node.text else _WHOLE
        case _:
            tightness = _POWER
    return tightness


def _is_number(node: Node) -> bool:
    return isinstance(node.of if isinstance(node, Negative) else node, Number)


def _starts_with_word(node: Node) -> bool:
    """Return whether a number may stand before a node with no sign between."""
    if isinstance(node, Operation) and node.sign in {"*", "^"}:
        return _starts_with_word(node.left)
    bracketed = isinstance(node, Operation) and node.sign in {"+", "-"}
    return bracketed or isinstance(node, Name)


def _starts_with_minus(node: Node) -> bool:
    """Return whether a node that stands without brackets has a minus in front."""
    if isinstance(node, Operation) and node.sign in {"+", "-", "*"}:
        least = _NEGATIVE if node.sign == "*" else _SUM
        return _tightness(node.left) >= least and _starts_with_minus(node.left)
    return isinstance(node, Negative)
