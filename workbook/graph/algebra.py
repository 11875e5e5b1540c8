"""
A molar mass by algebra from another's: the relation that the pieces imply.

An author writes what two species are made of. The letters in it are unknown;
SymPy solves the two lines for the wanted molar mass.
"""

from __future__ import annotations

from fractions import Fraction
from functools import reduce
from typing import TYPE_CHECKING

import sympy

from workbook.errors import RelationError
from workbook.graph.expression import to_sympy
from workbook.labfile.piece import piece_formulas
from workbook.relation.tree import (
    NO_TEXT,
    Algebra,
    Name,
    Node,
    Number,
    Operation,
    evaluate,
)

if TYPE_CHECKING:
    from collections.abc import Mapping
    from decimal import Decimal

    from workbook.labfile.schema import MolarMass

#: Half a unit in the last place to which a molar mass is printed [g/mol].
_PRINTED = Fraction(1, 200)


def piece_name(formula: str) -> str:
    """
    Return the name of the molar mass of a piece.

    Parameters
    ----------
    formula : str
        The formula of the piece.

    Returns
    -------
    str
        As a student may write it, too.

    Examples
    --------
    >>> piece_name("C3H5")
    'M(C3H5)'
    """
    return f"M({formula})"


def piece_system(species: str, row: MolarMass) -> tuple[sympy.Eq, ...]:
    """
    Return the equations that the pieces state, in symbols.

    Parameters
    ----------
    species : str
        Whose molar mass is wanted.
    row : MolarMass
        Its ``[molar_mass]`` table.

    Returns
    -------
    tuple of sympy.Eq
        One for each of the two species: its molar mass and what it is made of.
    """
    formulas = {
        sympy.Symbol(each): sympy.Symbol(piece_name(each))
        for each in piece_formulas(row)
    }
    return tuple(
        sympy.Eq(
            sympy.Symbol(f"{each}.molar_mass"),
            to_sympy(row.pieces[each]).xreplace(formulas),
        )
        for each in (row.start, species)
    )


def molar_mass_relation(species: str, row: MolarMass) -> Node:
    """
    Return the relation that gives a species' molar mass from another's.

    Parameters
    ----------
    species : str
        Whose molar mass is wanted.
    row : MolarMass
        Its ``[molar_mass]`` table, which has passed the rules on pieces.

    Returns
    -------
    Node
        A sum of molar masses, each with its share.

    Raises
    ------
    RelationError
        If the pieces do not settle the molar mass and every letter.
    """
    wanted = sympy.Symbol(f"{species}.molar_mass")
    unknown = [wanted, *(sympy.Symbol(letter) for letter in row.letters)]
    solutions = sympy.solve(piece_system(species, row), unknown, dict=True)
    solution = solutions[0] if len(solutions) == 1 else {}
    for symbol in unknown:
        if symbol not in solution or solution[symbol].free_symbols & set(unknown):
            reason = f"the pieces do not settle {symbol}."
            raise RelationError(NO_TEXT, 0, reason)
    shares = sorted(
        sympy.expand(solution[wanted]).as_coefficients_dict().items(),
        key=lambda pair: (bool(pair[1] < 0), str(pair[0])),
    )
    first, *rest = shares
    if first[1] < 0:
        reason = "the pieces give a molar mass below zero."
        raise RelationError(NO_TEXT, 0, reason)
    return reduce(_joined, rest, _term(*first))


def check_pieces(
    relation: Node, masses: Mapping[str, Decimal], expected_g: Decimal
) -> None:
    """
    Check that the pieces give the molar mass that the formula gives.

    Parameters
    ----------
    relation : Node
        What `molar_mass_relation` gave.
    masses : mapping of str to Decimal
        The molar mass of every name that it uses [g/mol].
    expected_g : Decimal
        The molar mass by the species' own formula [g/mol].

    Raises
    ------
    RelationError
        If they differ by more than printing hides.
    """
    algebra = Algebra(lambda n: n.value, lambda name: Fraction(masses[name]), max)
    found = evaluate(relation, algebra)
    if abs(found - Fraction(expected_g)) > _PRINTED:
        reason = (
            f"the pieces give {float(found):.3f} g/mol, but the formula of the species "
            f"gives {expected_g:.3f} g/mol. An atom is missing, or one too many."
        )
        raise RelationError(NO_TEXT, 0, reason)


def _joined(left: Node, share: tuple[sympy.Symbol, sympy.Rational]) -> Node:
    symbol, number = share
    return Operation("-" if number < 0 else "+", left, _term(symbol, number))


def _term(symbol: sympy.Symbol, share: sympy.Rational) -> Node:
    """Return a symbol with the size of its share; the sign is the sum's."""
    top: Node = Name(str(symbol))
    if abs(share.p) != 1:
        top = Operation("*", Number(str(abs(share.p))), top)
    return top if share.q == 1 else Operation("/", top, Number(str(share.q)))
