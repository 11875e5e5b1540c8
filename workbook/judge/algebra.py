"""
The verdict on lines of algebra: the first that stops following from the one above.

The pad's letters start at the values that the known molar mass settles. A line
holds if both its sides agree there: exactly, worked out by SymPy, when it is in
letters; within rounding when it has measured numbers in it. After a line that does
not hold, SymPy solves that line for its letter, and the student goes on from there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import sympy

from workbook.errors import FormulaError, RelationError, nearest
from workbook.graph.algebra import piece_system
from workbook.graph.span import ROUND_OFF, Span
from workbook.judge import words
from workbook.judge.working import Working
from workbook.matter.formula import Formula, molar_mass, read_formula
from workbook.relation.reader import read_line
from workbook.relation.symbol import to_sympy
from workbook.relation.tree import (
    Algebra,
    Equality,
    Name,
    Node,
    Number,
    evaluate,
    names,
    walk,
)

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.schema import MolarMass

#: Whole numbers up to here count atoms and molecules, and are exact.
COUNT_LIMIT = 12

#: How far two printed tables of atomic weights move the mass of a piece, as a share
#: [-]: two-decimal weights move a chain of CH2 groups by 2 in 10 000, from the
#: weights of CIAAW 2021 and those rounded to two decimals.
TABLE_SHARE = 2e-4


class Pad:
    """
    An algebra pad, with the values that its letters stand for.

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
        self._row: MolarMass = graph.lab.key.pieces[species]
        self._weights = graph.weights
        self._wanted = species
        self._solution = _solve_pieces(species, self._row)
        self.spans: dict[str, Span] = {self._row.start: start}
        for letter in (*self._row.letters, species):
            self.spans[letter] = self._span_of(self._solution[letter], start)

    def read(self, text: str) -> Equality | str:
        """
        Return a line, or what is wrong with it: its number left as ``{line}``.

        Parameters
        ----------
        text : str
            One line as typed.

        Returns
        -------
        Equality or str
            A sentence where it can't be read.
        """
        try:
            line = read_line(text)
        except RelationError as error:
            return words.LINE_UNREAD.replace("{reason}", str(error))
        if not isinstance(line, Equality):
            return words.LINE_NO_EQUALITY
        for name in names(line):
            if name not in self.spans and self._formula(name) is None:
                hint = nearest(name, self.spans)
                sentence = words.LINE_UNKNOWN.replace("{name!r}", repr(name))
                return sentence.replace("{hint}", hint)
        return line

    def holds(self, line: Equality) -> bool:
        """
        Tell whether a line follows from where the letters stand.

        Parameters
        ----------
        line : Equality
            A line that `read` gave.

        Returns
        -------
        bool
            True when both sides agree.
        """
        if self._is_symbolic(line):
            return bool(self._residual(line) == 0)
        left, right = self._evaluate(line.left), self._evaluate(line.right)
        return left.meets(right)

    def go_on(self, line: Equality) -> None:
        """
        Take a line for true, and move its letter to where the line puts it.

        Parameters
        ----------
        line : Equality
            A line that does not hold.
        """
        letter = self._defined(line)
        if letter is None:
            return
        symbol = sympy.Symbol(letter)
        equation = to_sympy(line)
        known = {
            sympy.Symbol(name): self._middle(name)
            for name in names(line)
            if name != letter
        }
        found = sympy.solve(equation.subs(known), symbol)
        if len(found) == 1 and found[0].is_number and found[0].is_real:
            value = float(found[0])
            self.spans[letter] = Span.around(value, abs(value) * TABLE_SHARE)

    def _defined(self, line: Equality) -> str | None:
        movable = [*self._row.letters, self._wanted]
        if isinstance(line.left, Name) and line.left.text in movable:
            return line.left.text
        used = [name for name in names(line) if name in movable]
        return used[-1] if used else None

    def _middle(self, name: str) -> sympy.Float:
        span = self._value(name)
        return sympy.Float((span.low + span.high) / 2)

    def _formula(self, name: str) -> Formula | None:
        text = name[2:-1] if name.startswith("M(") and name.endswith(")") else name
        try:
            return read_formula(text)
        except FormulaError:
            return None

    def _value(self, name: str) -> Span:
        if name in self.spans:
            return self.spans[name]
        formula = self._formula(name)
        if formula is None:
            raise KeyError(name)
        mass = float(molar_mass(formula, self._weights))
        return Span.around(mass, mass * TABLE_SHARE)

    def _evaluate(self, node: Node) -> Span:
        return evaluate(node, Algebra(_literal, self._value, _no_call))

    def _span_of(self, expression: sympy.Expr, start: Span) -> Span:
        known = sympy.Symbol(f"{self._row.start}.molar_mass")
        masses = {
            symbol: self._weight_of(symbol)
            for symbol in expression.free_symbols - {known}
        }
        ends = [
            float(expression.subs({known: end, **masses}))
            for end in (start.low, start.high)
        ]
        middle = sum(ends) / 2
        return Span.around(middle, abs(ends[1] - ends[0]) / 2 + ROUND_OFF * middle)

    def _weight_of(self, symbol: sympy.Symbol) -> sympy.Rational:
        formula = self._formula(symbol.name)
        if formula is None:
            raise KeyError(symbol.name)
        return sympy.Rational(str(molar_mass(formula, self._weights)))

    def _is_symbolic(self, line: Equality) -> bool:
        sides = (*walk(line.left), *walk(line.right))
        return all(_is_count(node) for node in sides if isinstance(node, Number))

    def _residual(self, line: Equality) -> sympy.Expr:
        """Return what is left when every letter is put in terms of atoms and start."""
        values = {
            sympy.Symbol(letter): self._atoms_in(self._solution[letter])
            for letter in (*self._row.letters, self._wanted)
        }
        values[sympy.Symbol(self._row.start)] = sympy.Symbol(
            f"{self._row.start}.molar_mass"
        )
        for name in names(line):
            formula = None if name in self.spans else self._formula(name)
            if formula is not None:
                values[sympy.Symbol(name)] = _atoms(formula)
        equation = to_sympy(line)
        return sympy.simplify((equation.lhs - equation.rhs).xreplace(values))

    def _atoms_in(self, expression: sympy.Expr) -> sympy.Expr:
        pieces = {}
        for symbol in expression.free_symbols:
            formula = self._formula(symbol.name)
            if formula is not None and not symbol.name.endswith(".molar_mass"):
                pieces[symbol] = _atoms(formula)
        return expression.xreplace(pieces)


def _solve_pieces(species: str, row: MolarMass) -> dict[str, sympy.Expr]:
    """Return each letter and the wanted molar mass in terms of the known one."""
    wanted = sympy.Symbol(f"{species}.molar_mass")
    letters = [sympy.Symbol(letter) for letter in row.letters]
    (solution,) = sympy.solve(piece_system(species, row), [wanted, *letters], dict=True)
    found = {letter.name: solution[letter] for letter in letters}
    return {**found, species: solution[wanted]}


def _atoms(formula: Formula) -> sympy.Expr:
    return sum(
        count * sympy.Symbol(f"atom {symbol}")
        for symbol, count in formula.atoms.items()
    )


def _is_count(number: Number) -> bool:
    return number.text.isdigit() and int(number.text) <= COUNT_LIMIT


def _literal(number: Number) -> Span:
    value = float(number.value)
    if _is_count(number):
        return Span.around(value)
    decimals = len(number.text.partition(".")[2]) if "e" not in number.text else 6
    half = 0.5 * 10.0**-decimals
    return Span.around(value, half + abs(value) * TABLE_SHARE)


def _no_call(name: str, _: tuple[Span | str, ...]) -> Span:
    raise KeyError(name)


def judge_lines(pad: Pad, lines: tuple[str, ...]) -> Working:
    """
    Return the first line that stops following, and what is wrong with it.

    Parameters
    ----------
    pad : Pad
        Its letters are moved on where a line does not hold.
    lines : tuple of str
        As typed, in order.

    Returns
    -------
    Working
        Without a sentence when every line holds.
    """
    if not lines:
        return Working(holds=False, sentence=words.LINES_MISSING)
    first: Working | None = None
    for index, text in enumerate(lines):
        line = pad.read(text)
        if isinstance(line, str):
            sentence = line.replace("{line}", str(index + 1))
            return Working(holds=False, sentence=sentence, at=index, unread=True)
        if not pad.holds(line):
            pad.go_on(line)
            sentence = words.LINE_STOPS if index else words.LINE_FIRST_STOPS
            said = sentence.format(line=index + 1)
            first = first or Working(holds=False, sentence=said, at=index)
    return first or Working(holds=True)
