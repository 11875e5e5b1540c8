"""What a formula is made of: atoms, bracketed groups, and the parts of a hydrate."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class Atom:
    """An element, and how many atoms of it: ``O4``."""

    symbol: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class Group:
    """What stands in brackets, and how often: ``(NH3)4``."""

    #: ``(`` or ``[``.
    bracket: str
    items: tuple[Item, ...]
    count: int = 1


Item: TypeAlias = Atom | Group


@dataclass(frozen=True, slots=True)
class Part:
    """What stands before, between or after dots, and how often: ``5H2O``."""

    count: int
    items: tuple[Item, ...]


def count_atoms(items: tuple[Item, ...]) -> Counter[str]:
    """
    Return how many atoms of each element stand in items.

    Parameters
    ----------
    items : tuple of Atom or Group
        In the order of writing.

    Returns
    -------
    Counter
        Atoms by symbol [-].

    Examples
    --------
    >>> count_atoms((Atom("Ca"), Group("(", (Atom("O"), Atom("H")), 2)))["H"]
    2
    """
    total: Counter[str] = Counter()
    for item in items:
        if isinstance(item, Atom):
            total[item.symbol] += item.count
        else:
            for symbol, count in count_atoms(item.items).items():
                total[symbol] += count * item.count
    return total
