"""
From a syntax tree to SymPy, without SymPy reading any text.

SymPy's reader takes E, I, N, S, O and Q for objects of its own and runs code that
it is handed, so every symbol is built here by name and every number exactly.
"""

from __future__ import annotations

import sympy

from workbook.errors import RelationError
from workbook.relation.tree import NO_TEXT, Algebra, Equality, Node, Number, evaluate


def to_sympy(node: Node | Equality) -> sympy.Expr | sympy.Eq:
    """
    Return the SymPy expression, or the unevaluated equation, of a tree.

    Parameters
    ----------
    node : Node or Equality
        The tree.

    Returns
    -------
    sympy.Expr or sympy.Eq
        Numbers are exact rationals, each name is the plain Symbol of its text, and
        ``ratio(a, b)`` is the Symbol of that text. SymPy gathers like terms and
        factors as it builds; nothing is expanded.

    Raises
    ------
    RelationError
        If the tree divides by what is always zero.

    Examples
    --------
    >>> from workbook.relation.reader import read_line
    >>> to_sympy(read_line("3(E + 0.5) + E"))
    4*E + 3/2
    """
    if isinstance(node, Equality):
        sides = (to_sympy(node.left), to_sympy(node.right))
        return sympy.Eq(*sides, evaluate=False)
    algebra = Algebra(number=_number, name=sympy.Symbol, call=_call)
    built = evaluate(node, algebra)
    if built.has(sympy.zoo, sympy.nan, sympy.oo):
        reason = "Something is divided by zero here. Check what stands below the line."
        raise RelationError(NO_TEXT, 0, reason)
    return built


def _number(number: Number) -> sympy.Expr:
    return sympy.Rational(number.value.numerator, number.value.denominator)


def _call(name: str, arguments: tuple[sympy.Expr | str, ...]) -> sympy.Expr:
    functions = {
        "concordant": sympy.Function("concordant"),
        # Not a power: SymPy would write one of a large number out.
        "exp10": sympy.Function("exp10"),
        "log10": lambda of: sympy.log(of, 10),
        "max": sympy.Max,
        "min": sympy.Min,
        "ratio": lambda *of: sympy.Symbol(f"ratio({', '.join(of)})"),
        "sqrt": sympy.sqrt,
    }
    return functions[name](*arguments)
