"""
The verdict on a factor chain: whether its factors lead to what is asked.

Each factor is a symbol, or two coefficients of an equation. The chain's product
over the wanted relation is worked out by SymPy; what is left of it says what is
wrong, whatever the numbers are.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import sympy

from workbook.judge import words
from workbook.judge.working import Working
from workbook.relation.symbol import to_sympy
from workbook.relation.tree import Call, Name, Node, Operation

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.wire.answer import Placed

#: A chain longer than this is no working [-].
FACTOR_LIMIT = 24


def coefficient_symbol(species: str) -> sympy.Symbol:
    """
    Return the symbol of a species' coefficient.

    Parameters
    ----------
    species : str
        A name of the lab file.

    Returns
    -------
    sympy.Symbol
        Positive, and different from every quantity's.
    """
    return sympy.Symbol(f"coefficient of {species}", positive=True)


def factor_symbol(factor: str) -> sympy.Expr:
    """
    Return what a factor of a chain stands for.

    Parameters
    ----------
    factor : str
        ``"oil.density"``, or ``"ratio(soap, oil)"``.

    Returns
    -------
    sympy.Expr
        A symbol, or one coefficient over another.

    Examples
    --------
    >>> factor_symbol("oil.density")
    oil.density
    """
    if factor.startswith("ratio("):
        of, to = (part.strip() for part in factor[6:-1].split(","))
        return coefficient_symbol(of) / coefficient_symbol(to)
    return sympy.Symbol(factor, positive=True)


def relation_symbol(relation: Node) -> sympy.Expr:
    """
    Return a product of factors as an expression in the symbols of a chain.

    Parameters
    ----------
    relation : Node
        A relation that `labfile.chain.is_product` accepts.

    Returns
    -------
    sympy.Expr
        A product of powers.

    Raises
    ------
    ValueError
        If the relation is no product.
    """
    match relation:
        case Name(text):
            return factor_symbol(text)
        case Call("ratio", (Name(of), Name(to))):
            return factor_symbol(f"ratio({of}, {to})")
        case Operation("*", left, right):
            return relation_symbol(left) * relation_symbol(right)
        case Operation("/", left, right):
            return relation_symbol(left) / relation_symbol(right)
        case _:
            msg = f"{to_sympy(relation)} is not a product of factors."
            raise ValueError(msg)


def judge_chain(
    relation: Node, start: str, placed: tuple[Placed, ...], labels: Mapping[str, str]
) -> Working:
    """
    Return whether a chain leads to a relation, and if not, what is wrong with it.

    Parameters
    ----------
    relation : Node
        The right-hand side of what is asked.
    start : str
        The quantity that the chain starts from.
    placed : tuple of Placed
        The factors, in the order of placing.
    labels : mapping of str to str
        What each offered factor is called.

    Returns
    -------
    Working
        Points at the factor that is at fault, where it is one.
    """
    if len(placed) > FACTOR_LIMIT:
        said = words.CHAIN_LONG.format(limit=FACTOR_LIMIT)
        return Working(holds=False, sentence=said)
    unknown = (at for at, each in enumerate(placed) if each.factor not in labels)
    if (at := next(unknown, None)) is not None:
        return Working(holds=False, sentence=words.CHAIN_UNKNOWN, at=at)
    product = factor_symbol(start)
    for each in placed:
        product *= _value(each)
    left = sympy.powsimp(product / relation_symbol(relation))
    return Working(holds=True) if left == 1 else _explain(left, placed, labels)


def _explain(
    left: sympy.Expr, placed: tuple[Placed, ...], labels: Mapping[str, str]
) -> Working:
    if not placed:
        return Working(holds=False, sentence=words.CHAIN_EMPTY)
    for find, sentence in (
        (_turned, words.CHAIN_UPSIDE_DOWN),
        (_doubled, words.CHAIN_TWICE),
        (_foreign, words.CHAIN_FOREIGN),
    ):
        at = find(left, placed)
        if at is not None:
            said = sentence.format(label=labels[placed[at].factor])
            return Working(holds=False, sentence=said, at=at)
    is_missing = all(not _touches(left, each) for each in placed)
    sentence = words.CHAIN_MISSING if is_missing else words.CHAIN_OFF
    return Working(holds=False, sentence=sentence)


def _value(each: Placed) -> sympy.Expr:
    return factor_symbol(each.factor) ** (-1 if each.turned else 1)


def _turned(left: sympy.Expr, placed: tuple[Placed, ...]) -> int | None:
    """Find the factor that, turned over, takes away all that is left of it."""
    for index, each in enumerate(placed):
        rest = sympy.powsimp(left / _value(each) ** 2)
        if _value(each).free_symbols.isdisjoint(rest.free_symbols):
            return index
    return None


def _doubled(left: sympy.Expr, placed: tuple[Placed, ...]) -> int | None:
    count = Counter(each.factor for each in placed)
    for index, each in enumerate(placed):
        if count[each.factor] > 1 and _touches(left, each):
            return index
    return None


def _foreign(left: sympy.Expr, placed: tuple[Placed, ...]) -> int | None:
    """Find the factor that, taken away, leaves nothing of itself."""
    for index, each in enumerate(placed):
        rest = sympy.powsimp(left / _value(each))
        if _value(each).free_symbols.isdisjoint(rest.free_symbols):
            return index
    return None


def _touches(left: sympy.Expr, each: Placed) -> bool:
    return not _value(each).free_symbols.isdisjoint(left.free_symbols)
