"""
From a syntax tree to the LaTeX that MathJax sets.

The order of what was written is kept, a division becomes a fraction, and
brackets stand only where the tree would be another without them.
"""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from workbook.relation.tree import (
    Call,
    Equality,
    Name,
    Negative,
    Node,
    Number,
    Operation,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.relation.tree import Sign

_NO_NAMES: Mapping[str, str] = MappingProxyType({})

# How tightly a node holds together: a looser one inside a tighter one is bracketed.
_SUM, _NEGATIVE, _PRODUCT, _POWER, _WHOLE = range(5)
_TIGHTNESS: Mapping[Sign, int] = {
    "+": _SUM,
    "-": _SUM,
    "*": _PRODUCT,
    "/": _POWER,
    "^": _POWER,
}

_CALLS = {
    "log10": r"\log_{{10}}\left({}\right)",
    "max": r"\max\left({}\right)",
    "min": r"\min\left({}\right)",
    "ratio": r"\mathrm{{ratio}}\left({}\right)",
    "sqrt": r"\sqrt{{{}}}",
}

_FORMULA = re.compile(r"(?:[A-Z][a-z]?[0-9]*)+")


def to_latex(node: Node | Equality, *, names: Mapping[str, str] = _NO_NAMES) -> str:
    r"""
    Return the LaTeX of a tree, without dollar signs.

    Parameters
    ----------
    node : Node or Equality
        The tree.
    names : mapping of str to str
        LaTeX for single names; a name that is not in it is set upright, with its
        underscores as blanks and the part before a dot as a subscript.

    Returns
    -------
    str
        Numbers stand with the digits that were typed.

    Examples
    --------
    >>> from workbook.relation.reader import read_line, read_relation
    >>> print(to_latex(read_line("M = (879.44 - x)/3"), names={"x": "M_x"}))
    M = \frac{879.44 - M_x}{3}
    >>> print(to_latex(read_relation("2 * (dish_mass - 1)")))
    2\,\left(\mathrm{dish\ mass} - 1\right)
    """
    if isinstance(node, Equality):
        left = to_latex(node.left, names=names)
        return f"{left} = {to_latex(node.right, names=names)}"
    return _Setter(names).show(node)


class _Setter:
    def __init__(self, names: Mapping[str, str]) -> None:
        self._names = names

    def show(self, node: Node) -> str:
        match node:
            case Number():
                shown = _number(node.text)
            case Name():
                shown = self._names.get(node.text) or name_to_latex(node.text)
            case Negative():
                shown = f"-{self._after_sign(node.of, _PRODUCT)}"
            case Call():
                arguments = ", ".join(map(self.show, node.arguments))
                shown = _CALLS[node.name].format(arguments)
            case _:
                shown = self._operation(node)
        return shown

    def _operation(self, node: Operation) -> str:
        if node.sign == "/":
            return rf"\frac{{{self.show(node.left)}}}{{{self.show(node.right)}}}"
        if node.sign == "^":
            return f"{self._within(node.left, _WHOLE)}^{{{self.show(node.right)}}}"
        if node.sign == "*":
            return self._product(node)
        tightness = _SUM if node.sign == "+" else _NEGATIVE
        right = self._after_sign(node.right, tightness)
        return f"{self.show(node.left)} {node.sign} {right}"

    def _product(self, node: Operation) -> str:
        left = self._within(node.left, _NEGATIVE)
        right = self._after_sign(node.right, _PRODUCT)
        close = _is_number(node.left) and _starts_with_word(node.right)
        between = r"\," if close and not right[0].isdigit() else r" \cdot "
        return f"{left}{between}{right}"

    def _within(self, node: Node, tightness: int) -> str:
        shown = self.show(node)
        return shown if _tightness(node) >= tightness else _bracket(shown)

    def _after_sign(self, node: Node, tightness: int) -> str:
        """Return a node's LaTeX so that no minus follows another sign."""
        shown = self._within(node, tightness)
        return _bracket(shown) if shown.startswith("-") else shown


def _bracket(shown: str) -> str:
    return rf"\left({shown}\right)"


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


def _number(text: str) -> str:
    figures, _, power = text.lower().partition("e")
    if not power:
        return figures
    return rf"{figures} \times 10^{{{power.removeprefix('+')}}}"


def name_to_latex(text: str) -> str:
    r"""
    Return the LaTeX of a name.

    Parameters
    ----------
    text : str
        As `tree.Name` holds it.

    Returns
    -------
    str
        One letter is set as a symbol, and what follows it as its subscript; a
        formula gets its small figures; anything longer is set upright.

    Examples
    --------
    >>> print(name_to_latex("oil_mass"))
    \mathrm{oil\ mass}
    >>> print(name_to_latex("oil.molar_mass"))
    \mathrm{molar\ mass}_{\mathrm{oil}}
    >>> print(name_to_latex("M(C3H5)"))
    M(\mathrm{C_{3}H_{5}})
    >>> print(name_to_latex("n_lye"))
    n_{\mathrm{lye}}
    """
    head, bracket, formula = text.partition("(")
    if bracket:
        return f"{name_to_latex(head)}({_upright(formula.removesuffix(')'))})"
    *owners, own = text.split(".")
    first, *rest = _words(own) or [own]
    if owners:
        return rf"{_upright(own)}_{{{_upright(' '.join(owners))}}}"
    if len(first) > 1:
        return _upright(own)
    return f"{first}_{{{_upright(' '.join(rest))}}}" if rest else first


def _words(text: str) -> list[str]:
    return re.findall(r"[^_.\s]+", text)


def _upright(text: str) -> str:
    if _FORMULA.fullmatch(text.replace("(", "").replace(")", "")):
        shown = re.sub("[0-9]+", r"_{\g<0>}", text)
    else:
        shown = r"\ ".join(_words(text))
    return rf"\mathrm{{{shown}}}"
