"""
The verdict on a factor chain: whether its factors lead to what is asked.

A chain and a relation are both products, so each is a count of powers: how often
each quantity and each coefficient stands above the line, less how often below it.
What is left of the one over the other says what is wrong, whatever the numbers are.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, TypeAlias

from workbook.judge import words
from workbook.judge.working import Working
from workbook.relation.text import to_text
from workbook.relation.tree import RATIO, Call, Name, Node, Operation

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.wire.answer import Placed

#: A chain longer than this is no working [-].
FACTOR_LIMIT = 24

#: The power of each quantity and coefficient in a product; none is zero.
Powers: TypeAlias = "Mapping[str, int]"


def factor_powers(factor: str) -> Powers:
    """
    Return what a factor of a chain stands for.

    Parameters
    ----------
    factor : str
        ``"oil.density"``, or ``"ratio(soap, oil)"``.

    Returns
    -------
    mapping of str to int
        One power, or those of two coefficients.

    Examples
    --------
    >>> factor_powers("oil.density")
    {'oil.density': 1}
    >>> factor_powers("ratio(soap, oil)")
    {'coefficient of soap': 1, 'coefficient of oil': -1}
    """
    if factor.startswith(f"{RATIO}("):
        of, to = factor.removeprefix(f"{RATIO}(").removesuffix(")").split(", ")
        return {f"coefficient of {of}": 1, f"coefficient of {to}": -1}
    return {factor: 1}


def relation_powers(relation: Node) -> Powers:
    """
    Return a product of factors as powers.

    Parameters
    ----------
    relation : Node
        A relation that `labfile.chain.is_product` accepts.

    Returns
    -------
    mapping of str to int
        Of every name and coefficient that is left.

    Raises
    ------
    ValueError
        If the relation is no product.

    Examples
    --------
    >>> from workbook.relation.reader import read_relation
    >>> relation_powers(read_relation("a / (b * b)"))
    {'a': 1, 'b': -2}
    """
    match relation:
        case Name(text):
            return {text: 1}
        case Call("ratio", (Name(of), Name(to), *_)):
            return factor_powers(f"ratio({of}, {to})")
        case Operation("*" | "/" as sign, left, right):
            times = 1 if sign == "*" else -1
            return _times(relation_powers(left), relation_powers(right), times)
        case _:
            msg = f"{to_text(relation, str)} is not a product of factors."
            raise ValueError(msg)


def _times(left: Powers, right: Powers, times: int) -> Powers:
    """Return a product with another that is multiplied in so many times."""
    powers = Counter(left)
    for name, power in right.items():
        powers[name] += times * power
    return {name: power for name, power in powers.items() if power}


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
    left = _times(factor_powers(start), relation_powers(relation), -1)
    for each in placed:
        left = _times(left, _powers(each), 1)
    return _explain(left, placed, labels) if left else Working(holds=True)


def _explain(
    left: Powers, placed: tuple[Placed, ...], labels: Mapping[str, str]
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


def _powers(each: Placed) -> Powers:
    return _times({}, factor_powers(each.factor), -1 if each.turned else 1)


def _turned(left: Powers, placed: tuple[Placed, ...]) -> int | None:
    """Find the factor that, turned over, takes away all that is left of it."""
    return _first_gone(left, placed, -2)


def _doubled(left: Powers, placed: tuple[Placed, ...]) -> int | None:
    count = Counter(each.factor for each in placed)
    for index, each in enumerate(placed):
        if count[each.factor] > 1 and _touches(left, each):
            return index
    return None


def _foreign(left: Powers, placed: tuple[Placed, ...]) -> int | None:
    """Find the factor that, taken away, leaves nothing of itself."""
    return _first_gone(left, placed, -1)


def _first_gone(left: Powers, placed: tuple[Placed, ...], times: int) -> int | None:
    """Find the first factor of which nothing is left once it is multiplied in."""
    for index, each in enumerate(placed):
        if not _touches(_times(left, _powers(each), times), each):
            return index
    return None


def _touches(left: Powers, each: Placed) -> bool:
    return not left.keys().isdisjoint(factor_powers(each.factor))
