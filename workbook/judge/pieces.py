"""What the letters of an algebra pad are made of: atoms, exactly, and their mass."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sympy

from workbook.errors import FormulaError
from workbook.graph.algebra import piece_system
from workbook.graph.span import ROUND_OFF, Span
from workbook.matter.formula import Formula, molar_mass, read_formula
from workbook.relation.symbol import to_sympy
from workbook.relation.tree import names

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.schema import MolarMass
    from workbook.relation.tree import Equality


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
        self._made_of = {row.start: _atoms(read_formula(formula))}
        self.wanted = species
        #: What the wanted species is made of: ``x + Na``.
        self.last = row.pieces[species]
        #: The letters whose values the student works out.
        self.sought = (*row.letters, species)
        #: Where each letter can lie [g/mol].
        self.spans = {row.start: start}
        for letter, expression in _solve(species, row).items():
            self._place(letter, expression, row.start)

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
        equation = to_sympy(line)
        atoms = {sympy.Symbol(name): self._atoms_of(name) for name in names(line)}
        fraction = sympy.fraction(sympy.together(equation.lhs - equation.rhs))
        left, divisor = (sympy.expand(part.xreplace(atoms)) for part in fraction)
        return bool(left == 0 and divisor != 0)

    def _atoms_of(self, name: str) -> sympy.Expr:
        return self._made_of[name] if name in self._made_of else _atoms(_formula(name))

    def _place(self, letter: str, expression: sympy.Expr, start: str) -> None:
        """Put a letter where the pieces say, from the known molar mass and formulas."""
        known = sympy.Symbol(start)
        formulas = {each: each.name for each in expression.free_symbols - {known}}
        masses = {symbol: self.mass(name) for symbol, name in formulas.items()}
        span = self.spans[start]
        low, high = sorted(
            float(expression.subs({**masses, known: end}))
            for end in (span.low, span.high)
        )
        self.spans[letter] = Span(low, high).widened(ROUND_OFF * abs(high))
        atoms = {symbol: self._atoms_of(name) for symbol, name in formulas.items()}
        of_start = self._made_of[start]
        self._made_of[letter] = sympy.expand(
            expression.xreplace({**atoms, known: of_start})
        )


def _solve(species: str, row: MolarMass) -> dict[str, sympy.Expr]:
    """Return each letter and the wanted molar mass in terms of the known one."""
    molar_masses = {
        sympy.Symbol(f"{each}.molar_mass"): sympy.Symbol(each)
        for each in (row.start, species)
    }
    system = [each.xreplace(molar_masses) for each in piece_system(species, row)]
    unknown = [sympy.Symbol(each) for each in (*row.letters, species)]
    (solution,) = sympy.solve(system, unknown, dict=True)
    return {symbol.name: solution[symbol] for symbol in unknown}


def _formula(name: str) -> Formula:
    """Read a formula, also where it is written as a molar mass: M(NaOH)."""
    is_mass = name.startswith("M(") and name.endswith(")")
    return read_formula(name[2:-1] if is_mass else name)


def _atoms(formula: Formula) -> sympy.Expr:
    return sympy.Add(
        *(
            count * sympy.Symbol(f"atom {symbol}")
            for symbol, count in formula.atoms.items()
        )
    )
