"""Trees in SymPy, beside expressions that were built by hand."""

from __future__ import annotations

import pytest
import sympy
from sympy import Rational, Symbol

from workbook.errors import RelationError
from workbook.graph.expression import to_sympy
from workbook.relation.reader import read_line, read_relation

M, x, y = sympy.symbols("M x y")


# Second opinion: the right-hand side is put together with SymPy's own operators.
@pytest.mark.parametrize(
    ("line", "by_hand"),
    [
        ("3(x + 22.99)", 3 * (x + Rational(2299, 100))),
        ("-x^2", -(x**2)),
        ("x - y - 1", x - y - 1),
        ("x/3/y", x / (3 * y)),
        ("2x y^-2", 2 * x / y**2),
        ("1e-3 x", Rational(1, 1000) * x),
        ("(M - M(C3H5))/3", (M - Symbol("M(C3H5)")) / 3),
    ],
)
def test_a_line_is_the_expression_built_by_hand(line: str, by_hand: sympy.Expr) -> None:
    assert to_sympy(read_line(line)) == by_hand


@pytest.mark.parametrize("letter", "EINSOQ")
def test_sympys_own_objects_are_never_meant(letter: str) -> None:
    assert to_sympy(read_line(letter)) == Symbol(letter)
    assert to_sympy(read_line(letter)) != getattr(sympy, letter)


def test_numbers_are_exact() -> None:
    assert to_sympy(read_line("0.1 + 0.2")) == Rational(3, 10)


def test_an_equality_stays_one_where_both_sides_are_the_same() -> None:
    assert isinstance(to_sympy(read_line("x = x")), sympy.Eq)


# (M - M(C3H5))/3 + M(Na) with 879.44, 41.07 and 22.99 g/mol: 838.37/3 = 279.4567,
# and 302.4467 with sodium. Common practice, no source; the hand arithmetic is shown.
def test_a_soaps_molar_mass_follows_by_algebra() -> None:
    acid = to_sympy(read_line("879.44 = 41.07 + 3x"))
    soap = to_sympy(read_line("M = x + 22.99"))
    found = sympy.solve([acid, soap], [x, M])
    assert found[M] == Rational(83837, 300) + Rational(2299, 100)
    assert float(found[M]) == pytest.approx(302.4467, abs=5e-5)


@pytest.mark.parametrize(
    ("relation", "by_hand"),
    [
        ("log10(x)", sympy.log(x) / sympy.log(10)),
        ("exp10(-x)", sympy.Function("exp10")(-x)),
        ("sqrt(x)", x ** Rational(1, 2)),
        ("min(x, 2, 3)", sympy.Min(x, 2)),
        ("max(x, 2, 3)", sympy.Max(x, 3)),
        ("x * ratio(soap, oil)", x * Symbol("ratio(soap, oil)")),
    ],
)
def test_a_function_is_sympys_own(relation: str, by_hand: sympy.Expr) -> None:
    assert to_sympy(read_relation(relation)) == by_hand


@pytest.mark.parametrize("line", ["1/0", "x/(2-2)", "0^-1", "x/(y-y)"])
def test_a_division_by_zero_is_refused(line: str) -> None:
    with pytest.raises(RelationError, match="divided by zero"):
        to_sympy(read_line(line))
