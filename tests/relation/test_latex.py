"""Typesetting: readable, and never another tree than the one that was written."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from workbook.errors import RelationError
from workbook.relation.latex import name_to_latex, set_text, to_latex
from workbook.relation.reader import read_line, read_relation
from workbook.relation.tree import (
    Algebra,
    Equality,
    Name,
    Negative,
    Node,
    Number,
    Operation,
    Sign,
    evaluate,
)

VALUES = {"a": Fraction(2), "b": Fraction(7, 3), "c": Fraction(-5)}


def value(node: Node | Equality) -> Fraction:
    """Return what a tree of `VALUES` comes to; one that divides by zero is no case."""
    assert not isinstance(node, Equality)

    def no_call(name: str, arguments: tuple[Fraction | str, ...]) -> Fraction:
        raise AssertionError(name, arguments)

    algebra = Algebra(lambda number: number.value, VALUES.__getitem__, no_call)
    try:
        return evaluate(node, algebra)
    except ZeroDivisionError:
        assume(condition=False)
        raise


def typed_again(latex: str) -> str:
    """Return typeset text as it would be typed; a fraction is its only ``}{``."""
    for set_as, typed in [
        (r"\left(", "("),
        (r"\right)", ")"),
        (r"\cdot", "*"),
        (r"\,", "*"),
        (r"\frac", ""),
        ("}{", ")/("),
        ("{", "("),
        ("}", ")"),
    ]:
        latex = latex.replace(set_as, typed)
    return latex


_leaves: st.SearchStrategy[Node] = st.sampled_from(
    [Name("a"), Name("b"), Name("c"), Number("2"), Number("0.50")]
)
_signs: st.SearchStrategy[Sign] = st.sampled_from(["+", "-", "*", "/"])
_powers: st.SearchStrategy[Node] = st.sampled_from([Number("2"), Negative(Number("1"))])
_trees: st.SearchStrategy[Node] = st.recursive(
    _leaves,
    lambda inner: (
        st.builds(Negative, inner)
        | st.builds(Operation, _signs, inner, inner)
        | st.builds(Operation, st.just("^"), inner, _powers)
    ),
    max_leaves=8,
)


@given(_trees)
def test_brackets_are_never_missed(node: Node) -> None:
    try:
        again = read_line(typed_again(to_latex(node)))
    except RelationError as error:
        assume("most" not in error.reason and "more than" not in error.reason)
        raise
    assert value(again) == value(node)


@pytest.mark.parametrize(
    ("line", "latex"),
    [
        ("(a + b)/c", r"\frac{a + b}{c}"),
        ("a/(b*c)", r"\frac{a}{b \cdot c}"),
        ("a + (b + c)", "a + b + c"),
        ("a*(b*c)", r"a \cdot b \cdot c"),
        ("(a)", "a"),
        ("-(a*b)", r"-a \cdot b"),
        ("(-a) + b", "-a + b"),
        ("x^(2)", "x^{2}"),
    ],
)
def test_brackets_stand_only_where_they_must(line: str, latex: str) -> None:
    assert to_latex(read_line(line)) == latex


@pytest.mark.parametrize(
    ("line", "latex"),
    [
        ("a - (b - c)", r"a - \left(b - c\right)"),
        ("a*(b - 2)", r"a \cdot \left(b - 2\right)"),
        ("a - -b", r"a - \left(-b\right)"),
        ("--a", r"-\left(-a\right)"),
        ("(a/b)^2", r"\left(\frac{a}{b}\right)^{2}"),
        ("(-a)^2", r"\left(-a\right)^{2}"),
        ("(1e-3)^2", r"\left(1 \times 10^{-3}\right)^{2}"),
    ],
)
def test_brackets_stand_where_they_must(line: str, latex: str) -> None:
    assert to_latex(read_line(line)) == latex


@pytest.mark.parametrize(
    ("typed", "latex"),
    [
        ("12.50", "12.50"),
        (".5", ".5"),
        ("1e-3", r"1 \times 10^{-3}"),
        ("2E+4", r"2 \times 10^{4}"),
    ],
)
def test_a_number_keeps_its_digits(typed: str, latex: str) -> None:
    assert to_latex(read_line(typed)) == latex


@pytest.mark.parametrize(
    ("line", "latex"),
    [
        ("3M", r"3\,M"),
        ("-3x", r"-3\,x"),
        ("3(x + 1)", r"3\,\left(x + 1\right)"),
        ("3x^2", r"3\,x^{2}"),
        ("3*4", r"3 \cdot 4"),
        ("3*4^2", r"3 \cdot 4^{2}"),
        ("3(a/b)", r"3 \cdot \frac{a}{b}"),
    ],
)
def test_a_number_stands_close_before_a_letter_only(line: str, latex: str) -> None:
    assert to_latex(read_line(line)) == latex


@pytest.mark.parametrize(
    ("name", "latex"),
    [
        ("x", "x"),
        ("\N{GREEK SMALL LETTER RHO}", "\N{GREEK SMALL LETTER RHO}"),
        ("oil_mass", r"\mathrm{oil\ mass}"),
        ("oil.density", r"\mathrm{density}_{\mathrm{oil}}"),
        ("M(NaOH)", r"M(\mathrm{NaOH})"),
        ("M(Ca(OH)2)", r"M(\mathrm{Ca(OH)_{2}})"),
        ("C3H5", r"\mathrm{C_{3}H_{5}}"),
        ("M_soap", r"M_{\mathrm{soap}}"),
        ("dish_", r"\mathrm{dish}"),
    ],
)
def test_a_name_can_be_read(name: str, latex: str) -> None:
    assert name_to_latex(name) == latex


def test_a_name_can_be_given_its_latex() -> None:
    shown = to_latex(read_line("3x"), names={"x": "M_{x}"})
    assert shown == r"3\,M_{x}"


def test_a_name_that_is_shown_as_a_number_keeps_its_distance() -> None:
    assert to_latex(read_line("3x"), names={"x": "22.99"}) == r"3 \cdot 22.99"


def test_an_equality_has_two_sides() -> None:
    assert to_latex(read_line("3M = x/2")) == r"3\,M = \frac{x}{2}"


@pytest.mark.parametrize(
    ("relation", "latex"),
    [
        ("ratio(soap, oil)", r"\mathrm{ratio}\left(\mathrm{soap}, \mathrm{oil}\right)"),
        ("log10(x)^2", r"\left(\log_{10}\left(x\right)\right)^{2}"),
        ("exp10(-x)", r"10^{-x}"),
        ("exp10(x)^2", r"\left(10^{x}\right)^{2}"),
        ("sqrt(x + 1)", r"\sqrt{x + 1}"),
        ("max(x, 1)", r"\max\left(x, 1\right)"),
        ("min(x, 1)", r"\min\left(x, 1\right)"),
    ],
)
def test_a_function_is_set_as_in_print(relation: str, latex: str) -> None:
    assert to_latex(read_relation(relation)) == latex


@pytest.mark.parametrize(
    ("text", "latex"),
    [
        ("a_b^c %", r"\text{a_b^c %}"),
        ("$x$", r"\text{\$x\$}"),
        ("}\\def", r"\text{\}\\def}"),
    ],
)
def test_a_text_can_t_leave_its_braces(text: str, latex: str) -> None:
    assert set_text(text) == latex
