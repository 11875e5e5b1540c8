"""Letters of a pad in atoms and grams, beside SymPy's own solver and hand sums."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
import sympy

from workbook.graph.span import Span
from workbook.judge.pieces import Pieces
from workbook.relation.reader import read_line
from workbook.relation.tree import Equality

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


@pytest.fixture
def pieces(graph: Graph) -> Pieces:
    return Pieces(graph, "soap", Span.around(885.453, 0.005))


def test_letters_stand_where_hand_sums_put_them(pieces: Pieces) -> None:
    """(885.453 - 41.073)/3 = 281.460, and 281.460 + 22.990 = 304.450."""
    assert pieces.spans["x"].holds(281.460)
    assert pieces.spans["soap"].holds(304.450)
    assert pieces.spans["soap"].high - pieces.spans["soap"].low < 0.004


def test_letters_stand_where_an_independent_solution_puts_them(pieces: Pieces) -> None:
    oil, x, soap = sympy.symbols("oil x soap")
    system = (oil - 41.073 - 3 * x, soap - x - 22.990, oil - 885.453)
    solved = sympy.solve(system, (oil, x, soap))
    for name, symbol in (("x", x), ("soap", soap)):
        assert pieces.spans[name].holds(float(solved[symbol]))


@pytest.mark.parametrize(
    ("text", "is_true"),
    [
        # Triolein C57H104O6 is C3H5 and three C18H33O2; sodium oleate C18H33NaO2.
        ("x = C18H33O2", True),
        ("soap = C18H33NaO2", True),
        ("oil = M(C57H104O6)", True),
        ("oil = M(C57H102O6)", False),
        ("soap = x + M(Na)", True),
        ("soap = x + K", False),
        ("x/x = 1", True),
        ("1/(oil - 3x - C3H5) = 1/(oil - 3x - C3H5)", True),
        ("1/(oil - 3x - C3H5) = 1/(soap - x - Na)", False),
    ],
)
def test_a_line_in_letters_is_settled_by_counting_atoms(
    pieces: Pieces, text: str, *, is_true: bool
) -> None:
    line = read_line(text)
    assert isinstance(line, Equality)
    assert pieces.is_identity(line) is is_true


@pytest.mark.parametrize("name", ["x", "oil", "soap", "C3H5", "M(C3H5)", "NaOH", "C"])
def test_letters_and_formulas_are_known(pieces: Pieces, name: str) -> None:
    assert pieces.knows(name)


@pytest.mark.parametrize("name", ["y", "lye", "M(lye)", "oil.molar_mass", "Qq", "M()"])
def test_other_names_are_not(pieces: Pieces, name: str) -> None:
    assert not pieces.knows(name)


def test_a_formula_weighs_what_its_atoms_do(pieces: Pieces) -> None:
    """3 × 12.011 + 5 × 1.008 = 41.073, with and without the M."""
    assert pieces.mass("M(C3H5)") == pieces.mass("C3H5") == pytest.approx(41.073)
