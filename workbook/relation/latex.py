"""From a syntax tree to the LaTeX that MathJax sets."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from workbook.relation.setting import set_tree

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.relation.tree import Equality, Node

_NO_NAMES: Mapping[str, str] = MappingProxyType({})

_CALLS = {
    "concordant": r"\mathrm{{concordant}}\left({}\right)",
    "exp10": r"10^{{{}}}",
    "log10": r"\log_{{10}}\left({}\right)",
    "max": r"\max\left({}\right)",
    "min": r"\min\left({}\right)",
    "ratio": r"\mathrm{{ratio}}\left({}\right)",
    "sqrt": r"\sqrt{{{}}}",
}

_THIN, _DOT = r"\,", r" \cdot "

_SPECIAL = re.compile(r"[\\${}]")

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
    return set_tree(node, _Latex(names))


class _Latex:
    def __init__(self, names: Mapping[str, str]) -> None:
        self._names = names

    def number(self, figures: str, power: str) -> str:
        return rf"{figures} \times 10^{{{power}}}" if power else figures

    def name(self, text: str) -> str:
        return self._names.get(text) or name_to_latex(text)

    def row(self, left: str, sign: str, right: str) -> str:
        return f"{left} {sign} {right}" if left else f"{sign}{right}"

    def product(self, left: str, right: str, *, is_close: bool) -> str:
        is_bare = is_close and not right[0].isdigit()
        return f"{left}{_THIN if is_bare else _DOT}{right}"

    def fraction(self, top: str, bottom: str) -> str:
        return rf"\frac{{{top}}}{{{bottom}}}"

    def power(self, of: str, exponent: str) -> str:
        return f"{of}^{{{exponent}}}"

    def call(self, name: str, arguments: Sequence[str]) -> str:
        return _CALLS[name].format(", ".join(arguments))

    def bracket(self, of: str) -> str:
        return rf"\left({of}\right)"


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


def set_text(text: str) -> str:
    r"""
    Return LaTeX that prints a text upright.

    In MathJax's ``\text`` only ``\ $ { }`` need a backslash.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        LaTeX, without dollar signs around it.

    Examples
    --------
    >>> print(set_text("5 % {w/w}"))
    \text{5 % \{w/w\}}
    """
    return rf"\text{{{_SPECIAL.sub(_guard, text)}}}"


def _guard(special: re.Match[str]) -> str:
    return f"\\{special[0]}"


def _words(text: str) -> list[str]:
    return re.findall(r"[^_.\s]+", text)


def _upright(text: str) -> str:
    if _FORMULA.fullmatch(text.replace("(", "").replace(")", "")):
        shown = re.sub("[0-9]+", r"_{\g<0>}", text)
    else:
        shown = r"\ ".join(_words(text))
    return rf"\mathrm{{{shown}}}"
