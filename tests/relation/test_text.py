"""Plain text: readable, and read again it comes to the same."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from workbook.errors import RelationError
from workbook.relation.reader import read_line, read_relation
from workbook.relation.text import to_text
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


_leaves: st.SearchStrategy[Node] = st.sampled_from(
    [Name("a"), Name("b"), Name("c"), Number("2"), Number("0.50"), Number("1e-3")]
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
def test_what_is_written_comes_to_the_same_when_it_is_read(node: Node) -> None:
    try:
        again = read_line(to_text(node, str))
    except RelationError as error:
        assume("most" not in error.reason and "more than" not in error.reason)
        raise
    assert value(again) == value(node)


@pytest.mark.parametrize(
    ("relation", "text"),
    [
        ("a*b/c", "a \N{MULTIPLICATION SIGN} b / c"),
        ("a/(b*c)", "a / (b \N{MULTIPLICATION SIGN} c)"),
        ("a-(b-c)", "a - (b - c)"),
        ("(a-b)-c", "a - b - c"),
        ("(a+b)^2", "(a + b)^2"),
        ("-(a+b)", "-(a + b)"),
        ("((a))", "a"),
        ("12.50", "12.50"),
        ("max(a, b + 1)", "max(a, b + 1)"),
    ],
)
def test_brackets_stand_only_where_they_must(relation: str, text: str) -> None:
    assert to_text(read_relation(relation), str) == text


def test_a_name_is_said_as_the_caller_says_it() -> None:
    node = read_relation("oil_mass / oil.molar_mass")
    said = {"oil_mass": "12.5 g", "oil.molar_mass": "885.453 g/mol"}
    assert to_text(node, said.__getitem__) == "12.5 g / 885.453 g/mol"


def test_the_species_of_a_ratio_keep_their_names() -> None:
    node = read_relation("n * ratio(soap, oil)")
    assert to_text(node, str.upper) == "N \N{MULTIPLICATION SIGN} ratio(soap, oil)"
