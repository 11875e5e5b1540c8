"""
An algebra pad: whether a line agrees with what its letters stand for.

A line in letters and small whole numbers is checked exactly, by SymPy. A line with
measured numbers is checked within their rounding. Either may also agree with where
the student's own earlier lines have led.
"""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING, NoReturn

import sympy

from workbook.errors import RelationError, nearest
from workbook.graph.expression import to_sympy
from workbook.graph.span import Span
from workbook.judge import words
from workbook.judge.steepness import is_steep
from workbook.relation.reader import read_line
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
    from collections.abc import Mapping

    from workbook.judge.pieces import Pieces

#: Whole numbers up to here count atoms and molecules, and are exact [-].
COUNT_LIMIT = 12

#: How far two printed tables of atomic weights move the mass of a piece, as a share
#: [-]: two-decimal weights move a chain of CH2 groups by 2 in 10 000, from the
#: weights of CIAAW 2021 and those rounded to two decimals.
TABLE_SHARE = 2e-4


class Pad:
    """
    An algebra pad on which lines are judged in order.

    Parameters
    ----------
    pieces : Pieces
        What its letters are made of.
    """

    def __init__(self, pieces: Pieces) -> None:
        self._pieces = pieces
        # Where the student's lines have put each letter, and with which value they
        # go on.
        self._owns = dict(pieces.spans)
        self._values = {
            name: (span.low + span.high) / 2 for name, span in pieces.spans.items()
        }
        self._is_moved = False

    def read(self, text: str, number: int) -> Equality | str:
        """
        Return a line, or the sentence that says what is wrong with it.

        Parameters
        ----------
        text : str
            One line as typed.
        number : int
            Which line it is, counted from 1 [-].

        Returns
        -------
        Equality or str
            A sentence where it can't be read.
        """
        try:
            line = read_line(text)
            # Refuses what divides by zero.
            to_sympy(line)
        except RelationError as error:
            return words.LINE_UNREAD.format(line=number, reason=error)
        if not isinstance(line, Equality):
            return words.LINE_NO_EQUALITY.format(line=number)
        return self._explain(line, number) or line

    def holds(self, line: Equality) -> bool:
        """
        Tell whether a line is true, or follows from where the student's lines lead.

        Parameters
        ----------
        line : Equality
            A line that `read` gave.

        Returns
        -------
        bool
            True when both sides agree.
        """
        is_exact = _is_exact(line)
        if is_exact and self._pieces.is_identity(line):
            return True
        if not is_exact and self._agrees(line, self._pieces.spans):
            return True
        return (self._is_moved or not is_exact) and self._agrees(line, self._owns)

    def keep(self, line: Equality) -> None:
        """
        Go on from a line that holds: its writer may have rounded.

        Parameters
        ----------
        line : Equality
            A line that holds, such as ``x = 281``.
        """
        for side, other in ((line.left, line.right), (line.right, line.left)):
            if isinstance(side, Name) and side.text in self._pieces.sought:
                self._stretch(side.text, self._work_out(other))
        self._stretch(self._pieces.wanted, self._work_out(self._pieces.last))

    def move(self, line: Equality) -> None:
        """
        Go on from a line that does not hold, as if it did.

        Parameters
        ----------
        line : Equality
            The letter that it speaks of is moved to where SymPy says it must be.
        """
        sought, wanted = self._pieces.sought, self._pieces.wanted
        used = [name for name in names(line) if name in sought]
        if not used:
            return
        is_named = isinstance(line.left, Name) and line.left.text in sought
        letter = used[0] if is_named else used[-1]
        self._put(letter, self._solve(line, letter))
        if letter != wanted:
            self._put(wanted, self._work_out(self._pieces.last))

    def _explain(self, line: Equality, number: int) -> str:
        """Say what keeps a line from being judged; nothing does as a rule."""
        if is_steep(line):
            return words.LINE_STEEP.format(line=number)
        for name in names(line):
            if not self._pieces.knows(name):
                hint = nearest(name, self._pieces.spans)
                return words.LINE_UNKNOWN.format(line=number, name=name, hint=hint)
        return ""

    def _put(self, letter: str, value: float) -> None:
        if math.isfinite(value):
            self._is_moved = True
            self._values[letter] = value
            self._owns[letter] = Span.around(value, abs(value) * TABLE_SHARE)

    def _stretch(self, letter: str, value: float) -> None:
        if math.isfinite(value):
            span = self._owns[letter]
            self._values[letter] = value
            self._owns[letter] = Span(min(span.low, value), max(span.high, value))

    def _agrees(self, line: Equality, spans: Mapping[str, Span]) -> bool:
        """Tell whether both sides can be the same, where the letters lie in *spans*."""

        def of(name: str) -> Span:
            if name in spans:
                return spans[name]
            mass = self._pieces.mass(name)
            return Span.around(mass, mass * TABLE_SHARE)

        algebra = Algebra(_literal, of, _no_call)
        try:
            left, right = (evaluate(each, algebra) for each in (line.left, line.right))
        except ArithmeticError:
            return False
        return left.meets(right)

    def _value(self, name: str) -> float:
        return self._values[name] if name in self._values else self._pieces.mass(name)

    def _work_out(self, node: Node) -> float:
        """Return what a side comes to for the student; NaN where it has no value."""
        algebra = Algebra(lambda each: float(each.value), self._value, _no_call)
        try:
            return evaluate(node, algebra)
        except ArithmeticError:
            return math.nan

    def _solve(self, line: Equality, letter: str) -> float:
        """Return what a letter must be for a line to hold; NaN if not settled."""
        equation, symbol = to_sympy(line), sympy.Symbol(letter)
        known = {
            sympy.Symbol(name): sympy.Rational(repr(self._value(name)))
            for name in names(line)
            if name != letter
        }
        difference = (equation.lhs - equation.rhs).xreplace(known)
        above, _ = sympy.fraction(sympy.together(difference))
        if above.is_polynomial(symbol) and sympy.degree(above, symbol) == 1:
            (root,) = sympy.solve(above, symbol)
            return float(root)
        return math.nan


def _is_exact(line: Equality) -> bool:
    """Tell whether a line holds letters and counted numbers only."""
    nodes = (*walk(line.left), *walk(line.right))
    return all(_is_count(node) for node in nodes if isinstance(node, Number))


def _is_count(number: Number) -> bool:
    return number.text.isdigit() and int(number.text) <= COUNT_LIMIT


def _literal(number: Number) -> Span:
    value = float(number.value)
    if _is_count(number):
        return Span.around(value)
    place = Decimal(number.text).as_tuple().exponent
    half = 0.5 * 10.0**place if isinstance(place, int) else 0.0
    return Span.around(value, half + abs(value) * TABLE_SHARE)


def _no_call(name: str, _: tuple[object, ...]) -> NoReturn:
    raise KeyError(name)
