"""Computing with a tree over several types."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from workbook.errors import RelationError
from workbook.graph.expression import to_sympy
from workbook.relation.reader import read_line, read_relation
from workbook.relation.tree import (
    Algebra,
    Equality,
    Name,
    Negative,
    Node,
    Number,
    Operation,
    check_powers,
    degree,
    evaluate,
    exponent,
    names,
    parts,
    walk,
)

Column = NDArray[np.float64]


def no_call(name: str, arguments: tuple[object, ...]) -> Fraction:
    """Refuse every function."""
    raise AssertionError(name, arguments)


def over_fractions(**values: Fraction) -> Algebra[Fraction]:
    """Return exact arithmetic over *values*."""
    return Algebra(lambda number: number.value, values.__getitem__, no_call)


def over_floats(**values: float) -> Algebra[float]:
    """Return arithmetic over *values*, in which soap to oil is as 3 to 1."""

    def call(name: str, arguments: tuple[float | str, ...]) -> float:
        if name == "ratio":
            return {("soap", "oil"): 3.0}[str(arguments[0]), str(arguments[1])]
        numbers = [float(argument) for argument in arguments]
        return {"log10": math.log10, "sqrt": math.sqrt}[name](numbers[0])

    return Algebra(lambda number: float(number.text), values.__getitem__, call)


# Hand arithmetic: 12.5 mL x 0.911 g/mL = 11.3875 g.
def test_floats_go_through_the_operators() -> None:
    node = read_relation("volume * density")
    assert evaluate(node, over_floats(volume=12.5, density=0.911)) == 12.5 * 0.911


# Hand arithmetic: 12.5 x 0.911 = 11.3875, which has no rounding to hide.
def test_fractions_stay_exact() -> None:
    node = read_relation("12.5 * 0.911")
    assert evaluate(node, over_fractions()) == Fraction(113875, 10000)


def test_a_column_is_computed_at_once() -> None:
    columns = {"a": np.array([1.0, 2.0, 3.0]), "b": np.array([4.0, 4.0, 4.0])}
    algebra: Algebra[Column] = Algebra(
        lambda number: np.array(float(number.text)), columns.__getitem__, no_column
    )
    found = evaluate(read_relation("a^2 / b - -1"), algebra)
    assert found.tolist() == [1.25, 2.0, 3.25]


def no_column(name: str, arguments: tuple[object, ...]) -> Column:
    """Refuse every function."""
    raise AssertionError(name, arguments)


def test_sympy_goes_through_the_operators() -> None:
    algebra: Algebra[sympy.Expr] = Algebra(
        lambda number: sympy.Rational(number.text), sympy.Symbol, no_call
    )
    x = sympy.Symbol("x")
    assert evaluate(read_relation("3*(x + 0.5)"), algebra) == 3 * x + sympy.Rational(
        3, 2
    )


def test_a_ratio_is_handed_the_names_of_its_species() -> None:
    node = read_relation("n * ratio(soap, oil)")
    assert evaluate(node, over_floats(n=2.0)) == 6.0


def test_other_functions_are_handed_values() -> None:
    node = read_relation("log10(x) + sqrt(4)")
    assert evaluate(node, over_floats(x=1000.0)) == pytest.approx(5.0)


def test_an_algebra_may_raise_to_powers_in_its_own_way() -> None:
    seen: list[int] = []

    def power(base: Fraction, exponent: int) -> Fraction:
        seen.append(exponent)
        return base

    algebra = Algebra(lambda number: number.value, no_name, no_call, power)
    evaluate(read_relation("5^-2"), algebra)
    assert seen == [-2]


def no_name(name: str) -> Fraction:
    """Refuse every name."""
    raise AssertionError(name)


def test_an_error_of_the_type_passes_through() -> None:
    with pytest.raises(ZeroDivisionError):
        evaluate(read_relation("1 / (2 - 2)"), over_fractions())


# Second opinion: Python's own arithmetic on Fractions.
@given(*[st.fractions(min_value=1, max_value=9, max_denominator=9)] * 3)
def test_any_values_give_what_python_gives(
    a: Fraction, b: Fraction, c: Fraction
) -> None:
    node = read_relation("-a^2 * (b - c) / c^-1 + a / b / c")
    found = evaluate(node, over_fractions(a=a, b=b, c=c))
    assert found == -(a**2) * (b - c) / (1 / c) + a / b / c


@pytest.mark.parametrize(
    ("text", "whole"), [("x^2", 2), ("x^-12", -12), ("x^2^3", 8), ("x^(2.0)", 2)]
)
def test_an_exponent_is_a_whole_number(text: str, whole: int) -> None:
    power = read_relation(text)
    assert isinstance(power, Operation)
    assert exponent(power.right) == whole


@pytest.mark.parametrize(
    "node",
    [
        Number("0.5"),
        Name("x"),
        Operation("+", Number("1"), Number("1")),
        Operation("^", Number("0"), Negative(Number("1"))),
        Operation("^", Number("12"), Number("12")),
    ],
)
def test_a_tree_that_no_reader_made_is_checked_too(node: Node) -> None:
    with pytest.raises(RelationError):
        evaluate(Operation("^", Number("2"), node), over_fractions())


def test_powers_of_powers_are_bounded_together() -> None:
    inner = Operation("^", Name("x"), Number("5"))
    check_powers(Operation("+", inner, inner))
    with pytest.raises(RelationError, match="multiply up to 25"):
        check_powers(Operation("^", inner, Number("5")))


def test_names_come_once_and_in_order() -> None:
    node = read_relation("b * a + min(b, c) - ratio(soap, oil)")
    assert names(node) == ("b", "a", "c")


def test_an_equality_has_the_names_of_both_sides() -> None:
    assert names(Equality(Name("y"), Negative(Name("x")))) == ("y", "x")


def test_walking_gives_a_node_before_its_parts() -> None:
    node = read_relation("min(-a, 2)")
    shown = [type(found).__name__ for found in walk(node)]
    assert shown == ["Call", "Negative", "Name", "Number"]


def test_a_leaf_has_no_parts() -> None:
    assert parts(Number("1")) == parts(Name("x")) == ()


def test_a_tree_can_be_a_key() -> None:
    assert {read_relation("a + 1"): 1}[read_relation("a+1")] == 1


# Second opinion: SymPy's own count of the degree of a polynomial.
@pytest.mark.parametrize(
    "line", ["3", "3x + y", "x*y - 1", "(x + 1)^3 * y", "-(x^2)^3", "2(x + y)(x - 1)"]
)
def test_the_degree_of_a_polynomial_is_sympys(line: str) -> None:
    node = read_line(line)
    x, y = sympy.symbols("x y")
    assert degree(node) == sympy.Poly(to_sympy(node), x, y).total_degree()


@pytest.mark.parametrize(
    ("line", "most"),
    [("M = (x - C3H5)/3", 1), ("M = 1/x", 1), ("x/x", 2), ("x^-4", 4), ("x = y^5", 5)],
)
def test_the_degree_counts_what_is_divided_too(line: str, most: int) -> None:
    assert degree(read_line(line)) == most


def test_the_degree_of_a_function_is_that_of_its_arguments() -> None:
    assert degree(read_relation("max(x, y^2) + 1")) == 2
