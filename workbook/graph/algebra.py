"""
A molar mass by algebra from another's: the relation that the pieces imply.

An author writes what two species are made of. The letters in it are unknown;
SymPy solves the two lines for the wanted molar mass.
"""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING

import sympy

from workbook.errors import AuthorError, FormulaError
from workbook.matter.formula import read_formula
from workbook.relation.symbol import to_sympy
from workbook.relation.tree import Name, Node, Number, Operation, names

if TYPE_CHECKING:
    from workbook.labfile.half import Lab
    from workbook.labfile.schema import MolarMass


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


def piece_formulas(row: MolarMass) -> tuple[str, ...]:
    """
    Return the formulas that stand in the pieces, letters left out.

    Parameters
    ----------
    row : MolarMass
        A ``[molar_mass]`` table.

    Returns
    -------
    tuple of str
        Each once, in the order of the file.
    """
    used = (name for piece in row.pieces.values() for name in names(piece))
    return tuple(dict.fromkeys(name for name in used if name not in row.letters))


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


def molar_mass_relation(lab: Lab, species: str) -> Node:
    """
    Return the relation that gives a species' molar mass from another's.

    Parameters
    ----------
    lab : Lab
        With a ``[molar_mass]`` table for the species.
    species : str
        Whose molar mass is wanted.

    Returns
    -------
    Node
        A sum of molar masses, each with its share.

    Raises
    ------
    AuthorError
        If a piece is neither a letter nor a formula, if one of the two species
        has no pieces, or if they do not settle the molar mass.
    """
    row = lab.key.pieces[species]
    _check(lab, species, row)
    wanted = sympy.Symbol(f"{species}.molar_mass")
    unknown = [wanted, *(sympy.Symbol(letter) for letter in row.letters)]
    solutions = sympy.solve(piece_system(species, row), unknown, dict=True)
    if len(solutions) != 1 or wanted not in solutions[0]:
        raise _error(lab, species, "the pieces do not settle the molar mass.")
    found = sympy.expand(solutions[0][wanted])
    if found.free_symbols & set(unknown):
        raise _error(lab, species, "the pieces leave a letter without a value.")
    shares = sorted(
        found.as_coefficients_dict().items(),
        key=lambda pair: (bool(pair[1] < 0), str(pair[0])),
    )
    first, *rest = shares
    return reduce(_joined, rest, _term(*first))


def _joined(left: Node, share: tuple[sympy.Symbol, sympy.Rational]) -> Node:
    symbol, number = share
    return Operation("-" if number < 0 else "+", left, _term(symbol, number))


def _term(symbol: sympy.Symbol, share: sympy.Rational) -> Node:
    """Return a symbol with the size of its share; the sign is the sum's."""
    top: Node = Name(str(symbol))
    if abs(share.p) != 1:
        top = Operation("*", Number(str(abs(share.p))), top)
    return top if share.q == 1 else Operation("/", top, Number(str(share.q)))


def _check(lab: Lab, species: str, row: MolarMass) -> None:
    for each in (row.start, species):
        if each not in row.pieces:
            raise _error(lab, species, f"pieces has no entry for {each!r}; add it.")
    for formula in piece_formulas(row):
        try:
            read_formula(formula)
        except FormulaError as error:
            sentence = f"{formula!r} is no letter of this table, and {error}"
            raise _error(lab, species, sentence) from error


def _error(lab: Lab, species: str, sentence: str) -> AuthorError:
    line = lab.located.line(("molar_mass", species, "pieces"))
    return AuthorError((f"{lab.path}:{line}: molar_mass.{species}: {sentence}",))
