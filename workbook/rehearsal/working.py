"""The working that a student shows: the factors of a chain, the lines of a pad."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache, lru_cache
from typing import TYPE_CHECKING

import sympy

from workbook.graph.expression import to_sympy
from workbook.labfile.offer import offers
from workbook.relation.text import to_text
from workbook.relation.tree import Call, Name, Node, Operation
from workbook.wire.answer import Placed

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Mapping

    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Ask
    from workbook.labfile.schema import MolarMass


@lru_cache(maxsize=4096)
def build_chain(graph: Graph, ask: Ask, relation: Node) -> tuple[Placed, ...] | None:
    """
    Return the chain of factors that a relation says.

    Parameters
    ----------
    graph : Graph
        The lab.
    ask : Ask
        A chain step.
    relation : Node
        The step's own relation, or a wrong one.

    Returns
    -------
    tuple of Placed or None
        None where the factors that are offered can't say it.
    """
    powers: Counter[str] = Counter()
    if not _count(relation, 1, powers):
        return None
    powers[ask.start or ""] -= 1
    offered = {each.id for each in offers(graph.lab.public, ask, graph.weights)}
    placed: list[Placed] = []
    for name, power in powers.items():
        factor, raised = _as_offered(name, power, offered)
        if raised and factor not in offered:
            return None
        placed += [Placed(factor, turned=raised < 0)] * abs(raised)
    return tuple(placed)


def _as_offered(name: str, power: int, offered: set[str]) -> tuple[str, int]:
    """Return a factor as it is offered: a ratio may have to be turned over."""
    if name in offered or not name.startswith("ratio("):
        return name, power
    of, to = name[len("ratio(") : -1].split(", ")
    return f"ratio({to}, {of})", -power


def _count(node: Node, power: int, powers: Counter[str]) -> bool:
    """Count the factors of a product; False where it is none."""
    match node:
        case Name(text):
            powers[text] += power
            return True
        case Call("ratio", (Name(of), Name(to))):
            powers[f"ratio({of}, {to})"] += power
            return True
        case Operation("*" | "/" as sign, left, right):
            below = power if sign == "*" else -power
            return _count(left, power, powers) and _count(right, below, powers)
        case _:
            return False


def derive_lines(
    row: MolarMass, wanted: str, say: Callable[[str], str], chance: random.Random
) -> tuple[str, ...]:
    """
    Return honest lines of algebra.

    Parameters
    ----------
    row : MolarMass
        What the two species are made of.
    wanted : str
        The species whose molar mass is asked.
    say : callable
        Gives the number that the student has for a name.
    chance : random.Random
        Decides between letters and numbers, one line and several.

    Returns
    -------
    tuple of str
        At least one.
    """
    lines = _solve(tuple(row.letters), row.start, wanted, _pieces(row))
    first = f"{row.start} = {to_text(row.pieces[row.start], str)}"
    last = f"{wanted} = {to_text(row.pieces[wanted], str)}"
    letters = [f"{name} = {_write(lines[name])}" for name in row.letters]
    whole = f"{wanted} = {_write(lines[wanted])}"
    numbers = f"{wanted} = {_with_numbers(lines[wanted], say)}"
    return chance.choice(
        [(first, *letters, last), (whole,), (first, numbers), (first, whole)]
    )


def derive_wrongly(graph: Graph, species: str, relation: Node) -> tuple[str, ...]:
    """
    Return lines of algebra in which the last one holds a mistake.

    Parameters
    ----------
    graph : Graph
        The lab.
    species : str
        Whose molar mass is asked.
    relation : Node
        The mistake, in molar masses.

    Returns
    -------
    tuple of str
        A right line, and a wrong one.

    Raises
    ------
    ValueError
        If the relation holds something that is no molar mass.
    """
    row = graph.lab.key.pieces[species]

    def say(name: str) -> str:
        if name.startswith("M("):
            return name[2:-1]
        other, _, what = name.partition(".")
        formula = graph.lab.public.species[other].formula if what else None
        if what != "molar_mass" or formula is None:
            msg = f"{name!r} is no molar mass."
            raise ValueError(msg)
        return row.start if other == row.start else formula

    first = f"{row.start} = {to_text(row.pieces[row.start], str)}"
    return first, f"{species} = {to_text(relation, say)}"


def _pieces(row: MolarMass) -> tuple[tuple[str, Node], ...]:
    return tuple(row.pieces.items())


@cache
def _solve(
    letters: tuple[str, ...],
    start: str,
    wanted: str,
    pieces: tuple[tuple[str, Node], ...],
) -> Mapping[str, sympy.Expr]:
    """Return each letter, and the wanted molar mass, in terms of what is known."""
    system = [sympy.Eq(sympy.Symbol(name), to_sympy(node)) for name, node in pieces]
    sought = [sympy.Symbol(name) for name in (*letters, wanted)]
    (solution,) = sympy.solve(system, sought, dict=True)
    if sympy.Symbol(start) in solution:
        msg = f"The pieces do not rest on {start!r}."
        raise ValueError(msg)
    return {symbol.name: value for symbol, value in solution.items()}


@cache
def _write(expression: sympy.Expr) -> str:
    return str(expression)


def _with_numbers(expression: sympy.Expr, say: Callable[[str], str]) -> str:
    text = _write(expression)
    for name in sorted(map(str, expression.free_symbols), key=len, reverse=True):
        text = re.sub(rf"(?<![\w.]){re.escape(name)}(?![\w.])", say(name), text)
    return text
