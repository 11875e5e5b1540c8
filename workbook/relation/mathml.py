"""From a syntax tree to MathML Core, which a browser sets by itself."""

from __future__ import annotations

import re
from html import escape
from typing import TYPE_CHECKING

from workbook.relation.setting import set_tree

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.relation.tree import Equality, Node

_SIGNS = {"+": "+", "-": "−", "=": "="}

#: A number before a word: no sign between them, only a little room.
_THIN = '<mspace width="0.17em"/>'
_DOT = "<mo>⋅</mo>"

_FORMULA = re.compile(r"(?:[A-Z][a-z]?[0-9]*)+")
_PIECE = re.compile(r"([A-Z][a-z]?|[()])([0-9]*)")


def to_mathml(node: Node | Equality) -> str:
    """
    Return the MathML of a tree, as one element.

    Parameters
    ----------
    node : Node or Equality
        The tree.

    Returns
    -------
    str
        Without ``math`` around it; numbers stand with the digits that were typed.

    Examples
    --------
    >>> from workbook.relation.reader import read_line
    >>> print(to_mathml(read_line("3x")))
    <mrow><mn>3</mn><mspace width="0.17em"/><mi>x</mi></mrow>
    """
    return set_tree(node, _MathML())


class _MathML:
    def number(self, figures: str, power: str) -> str:
        shown = f"<mn>{escape(figures)}</mn>"
        if not power:
            return shown
        return _group(shown, "<mo>×</mo>", self.power("<mn>10</mn>", _signed(power)))

    def name(self, text: str) -> str:
        return name_to_mathml(text)

    def row(self, left: str, sign: str, right: str) -> str:
        return _group(left, f"<mo>{_SIGNS[sign]}</mo>", right)

    def product(self, left: str, right: str, *, is_close: bool) -> str:
        return _group(left, _THIN if is_close else _DOT, right)

    def fraction(self, top: str, bottom: str) -> str:
        return f"<mfrac>{top}{bottom}</mfrac>"

    def power(self, of: str, exponent: str) -> str:
        return f"<msup>{of}{exponent}</msup>"

    def call(self, name: str, arguments: Sequence[str]) -> str:
        inside = "<mo>,</mo>".join(arguments)
        if name == "sqrt":
            return f"<msqrt>{inside}</msqrt>"
        if name == "exp10":
            return f"<msup><mn>10</mn>{_group(inside)}</msup>"
        head = f"<mi>{escape(name)}</mi>"
        if name == "log10":
            head = "<msub><mi>log</mi><mn>10</mn></msub>"
        return _group(head, self.bracket(inside))

    def bracket(self, of: str) -> str:
        return _group("<mo>(</mo>", of, "<mo>)</mo>")


def name_to_mathml(text: str) -> str:
    """
    Return the MathML of a name, as one element.

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
    >>> name_to_mathml("oil_mass")
    '<mtext>oil mass</mtext>'
    >>> name_to_mathml("n_lye")
    '<msub><mi>n</mi><mtext>lye</mtext></msub>'
    >>> name_to_mathml("Na2O")
    '<mrow><msub><mtext>Na</mtext><mn>2</mn></msub><mtext>O</mtext></mrow>'
    """
    head, bracket, formula = text.partition("(")
    if bracket:
        inside = _set_upright(formula.removesuffix(")"))
        return _group(name_to_mathml(head), "<mo>(</mo>", inside, "<mo>)</mo>")
    *owners, own = text.split(".")
    if owners:
        return f"<msub>{_set_upright(own)}{_set_upright(' '.join(owners))}</msub>"
    first, *rest = _words(own) or [own]
    if len(first) > 1:
        return _set_upright(own)
    symbol = f"<mi>{escape(first)}</mi>"
    return f"<msub>{symbol}{_set_upright(' '.join(rest))}</msub>" if rest else symbol


def _words(text: str) -> list[str]:
    return re.findall(r"[^_\s]+", text)


def _set_upright(text: str) -> str:
    if len(text) > 1 and _FORMULA.fullmatch(text.replace("(", "").replace(")", "")):
        return _group(*(_set_piece(*each) for each in _PIECE.findall(text)))
    return f"<mtext>{escape(' '.join(_words(text)))}</mtext>"


def _set_piece(piece: str, count: str) -> str:
    shown = f"<mtext>{piece}</mtext>"
    return f"<msub>{shown}<mn>{count}</mn></msub>" if count else shown


def _signed(power: str) -> str:
    if not power.startswith("-"):
        return f"<mn>{escape(power)}</mn>"
    return _group("<mo>−</mo>", f"<mn>{escape(power[1:])}</mn>")


def _group(*parts: str) -> str:
    return f"<mrow>{''.join(parts)}</mrow>"
