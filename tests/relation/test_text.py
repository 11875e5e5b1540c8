"""A tree written out as text reads back to the same value."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook.errors import RelationError
from workbook.relation.reader import read_relation
from workbook.relation.text import to_text
from workbook.relation.tree import (
    Algebra,
    Name,
    Negative,
    Node,
    Number,
    Operation,
    check_powers,
    evaluate,
)

VALUES = {"a": Fraction(2), "b": Fraction(3), "c": Fraction(7), "d": Fraction(11)}


def written(text: str) -> str:
    return to_text(read_relation(text), str)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a*b", "a × b"),
        ("a + b*c", "a + b × c"),
        ("(a + b)*c", "(a + b) × c"),
        ("a/(b*c)", "a / (b × c)"),
        ("a/b/c", "a / b / c"),
        ("a - (b - c)", "a - (b - c)"),
        ("a - b - c", "a - b - c"),
        ("a*(b/c)", "a × b / c"),
        ("(a*b)^2", "(a × b)^2"),
        ("-a^2", "-a^2"),
        ("(-a)^2", "(-a)^2"),
        ("a*-b", "a × (-b)"),
        ("-(a + b)", "-(a + b)"),
        ("min(a, b + c)", "min(a, b + c)"),
        ("12.50*a", "12.50 × a"),
    ],
)
def test_brackets_stand_only_where_they_matter(text: str, expected: str) -> None:
    assert written(text) == expected


def test_names_are_said_as_wanted_and_species_are_not() -> None:
    node = read_relation("n * ratio(soap, oil) / oil.molar_mass")
    said = {"n": "0.0129 mol", "oil.molar_mass": "885.45 g/mol"}
    expected = "0.0129 mol × ratio(soap, oil) / 885.45 g/mol"
    assert to_text(node, said.__getitem__) == expected


def nodes() -> st.SearchStrategy[Node]:
    """Return trees of sums, products, signs and small powers."""
    leaves = st.sampled_from([Name(name) for name in VALUES]) | st.just(Number("5"))

    def grow(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
        signs = st.sampled_from(["+", "-", "*", "/"])
        joined = st.builds(Operation, signs, inner, inner)
        raised = st.builds(Operation, st.just("^"), inner, st.just(Number("2")))
        return joined | raised | st.builds(Negative, inner)

    return st.recursive(leaves, grow, max_leaves=8).filter(is_bounded)


def is_bounded(node: Node) -> bool:
    """Return whether a reader takes the tree: its powers do not tower too high."""
    try:
        check_powers(node)
    except RelationError:
        return False
    return True


def value(node: Node) -> Fraction | None:
    def no_call(name: str, _: object) -> Fraction:
        raise KeyError(name)

    algebra = Algebra(lambda number: number.value, VALUES.__getitem__, no_call)
    try:
        return evaluate(node, algebra)
    except ZeroDivisionError:
        return None


@given(nodes())
@settings(max_examples=200)
def test_the_text_reads_back_to_the_same_value(node: Node) -> None:
    text = to_text(node, str).replace("×", "*")
    assert value(read_relation(text)) == value(node)
