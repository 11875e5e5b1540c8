"""What the letters of an algebra pad are made of: atoms, exactly, and their mass."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING

import sympy

from workbook.errors import FormulaError
from workbook.graph.expression import to_sympy
from workbook.graph.span import ROUND_OFF, Span
from workbook.matter.formula import Formula, molar_mass, read_formula
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph
    from workbook.relation.tree import Equality, Node


class Pieces:
    """
    The letters of a pad as the lab file settles them.

    Parameters
    ----------
    graph : Graph
        The lab.
    species : str
        Whose molar mass is wanted.
    start : Span
        Where the student stands with the known molar mass [g/mol].
    """

    def __init__(self, graph: Graph, species: str, start: Span) -> None:
        row = graph.lab.key.pieces[species]
        formula = graph.lab.public.species[row.start].formula or ""
        self._weights = graph.weights
        self._made_of = {row.start: _atoms(formula)}
        self.wanted = species
        #: What the wanted species is made of: ``x + Na``.
        self.last = row.pieces[species]
        #: The letters whose values the student works out.
        self.sought = (*row.letters, species)
        #: Where each letter can lie [g/mol].
        self.spans = {row.start: start}
        pieces = tuple((each, row.pieces[each]) for each in (row.start, species))
        for letter, shares in _solve(self.sought, pieces).items():
            self._place(letter, shares)

    def knows(self, name: str) -> bool:
        """
        Tell whether a name is a letter of this pad, or a formula.

        Parameters
        ----------
        name : str
            As typed: ``"x"``, ``"C3H5"`` or ``"M(C3H5)"``.

        Returns
        -------
        bool
            False for any other name.
        """
        try:
            return name in self.spans or bool(_formula(name).atoms)
        except FormulaError:
            return False

    def mass(self, name: str) -> float:
        """
        Return the molar mass of a formula.

        Parameters
        ----------
        name : str
            A name that `knows` knows, and no letter.

        Returns
        -------
        float
            By the course's table of atomic weights [g/mol].
        """
        return float(molar_mass(_formula(name), self._weights))

    def is_identity(self, line: Equality) -> bool:
        """
        Tell whether a line is exactly true, by SymPy.

        Parameters
        ----------
        line : Equality
            Its names are known here.

        Returns
        -------
        bool
            True when nothing is left of the difference of its sides once every letter
            is put in terms of atoms.
        """
        made_of = {name: self._atoms_of(name) for name in names(line)}
        return _is_identity(line, tuple(made_of.items()))

    def _atoms_of(self, name: str) -> sympy.Expr:
        return self._made_of[name] if name in self._made_of else _atoms(name)

    def _place(self, letter: str, shares: Mapping[str, sympy.Rational]) -> None:
        """Put a letter where the known molar mass and the masses of formulas do."""
        span = Span.around(0.0)
        for name, share in shares.items():
            given = self.spans.get(name) or Span.around(self.mass(name))
            span += given * Span.around(float(share))
        self.spans[letter] = span.widened(ROUND_OFF * abs(span.high))
        self._made_of[letter] = sympy.Add(
            *(share * self._atoms_of(name) for name, share in shares.items())
        )


@lru_cache(maxsize=4096)
def _is_identity(line: Equality, made_of: tuple[tuple[str, sympy.Expr], ...]) -> bool:
    """Tell whether a line is true of atoms; a class shares few lines in letters."""
    equation = to_sympy(line)
    atoms = {sympy.Symbol(name): each for name, each in made_of}
    fraction = sympy.fraction(sympy.together(equation.lhs - equation.rhs))
    left, divisor = (sympy.expand(part.xreplace(atoms)) for part in fraction)
    return bool(left == 0 and divisor != 0)


@cache
def _solve(
    sought: tuple[str, ...], pieces: tuple[tuple[str, Node], ...]
) -> Mapping[str, Mapping[str, sympy.Rational]]:
    """Return each letter as shares of the known molar mass and of formulas."""
    system = [sympy.Eq(sympy.Symbol(name), to_sympy(node)) for name, node in pieces]
    (solution,) = sympy.solve(system, [sympy.Symbol(s) for s in sought], dict=True)
    return {
        letter: {
            symbol.name: share
            for symbol, share in sympy.expand(solution[sympy.Symbol(letter)])
            .as_coefficients_dict()
            .items()
        }
        for letter in sought
    }


def _formula(name: str) -> Formula:
    """Read a formula, also where it is written as a molar mass: M(NaOH)."""
    is_mass = name.startswith("M(") and name.endswith(")")
    return read_formula(name[2:-1] if is_mass else name)


@cache
def _atoms(name: str) -> sympy.Expr:
    return sympy.Add(
        *(
            count * sympy.Symbol(f"atom {symbol}")
            for symbol, count in _formula(name).atoms.items()
        )
    )
