"""Typesetting for a browser: well formed, safe, and the tree that was written."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree as ET

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from workbook.errors import RelationError
from workbook.relation.mathml import name_to_mathml, to_mathml
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

#: How the elements of MathML Core are typed: W3C, "MathML Core", section 3.
_TYPED = {
    "mfrac": "(({0})/({1}))",
    "msup": "({0})^({1})",
    "mspace": "*",
    "math": "{0}",
}
_SIGNS = str.maketrans({"−": "-", "⋅": "*", "×": "*"})


def read(mathml: str) -> ET.Element:
    """Return the element that a text is; it fails on one that is not well formed."""
    return ET.fromstring(mathml)  # noqa: S314 - our own output


def typed_again(element: ET.Element) -> str:
    """Return typeset text as it would be typed, from what its elements mean."""
    parts = [typed_again(each) for each in element]
    if element.tag in _TYPED:
        return _TYPED[element.tag].format(*parts)
    # Brackets are only those that are shown: a row has none.
    return "".join(parts) or (element.text or "").translate(_SIGNS)


def value(node: Node) -> Fraction:
    """Return what a tree of `VALUES` comes to; one that divides by zero is no case."""

    def no_call(name: str, arguments: tuple[Fraction | str, ...]) -> Fraction:
        raise AssertionError(name, arguments)

    algebra = Algebra(lambda number: number.value, VALUES.__getitem__, no_call)
    try:
        return evaluate(node, algebra)
    except ZeroDivisionError:
        assume(condition=False)
        raise


_leaves: st.SearchStrategy[Node] = st.sampled_from(
    [Name("a"), Name("b"), Name("c"), Number("2"), Number("0.50")]
)
_signs: st.SearchStrategy[Sign] = st.sampled_from(["+", "-", "*", "/"])
_trees: st.SearchStrategy[Node] = st.recursive(
    _leaves,
    lambda inner: (
        st.builds(Negative, inner)
        | st.builds(Operation, _signs, inner, inner)
        | st.builds(Operation, st.just("^"), inner, st.just(Number("2")))
    ),
    max_leaves=8,
)


@given(_trees)
def test_what_is_set_is_the_tree_that_was_written(node: Node) -> None:
    typed = typed_again(read(to_mathml(node)))
    try:
        again = read_line(typed)
    except RelationError as error:
        assume("most" not in error.reason and "more than" not in error.reason)
        raise
    assert not isinstance(again, Equality)
    assert value(again) == value(node)


@pytest.mark.parametrize(
    ("name", "mathml"),
    [
        ("x", "<mi>x</mi>"),
        ("oil_mass", "<mtext>oil mass</mtext>"),
        ("dish_", "<mtext>dish</mtext>"),
        ("n_lye", "<msub><mi>n</mi><mtext>lye</mtext></msub>"),
        ("oil.density", "<msub><mtext>density</mtext><mtext>oil</mtext></msub>"),
        (
            "M(Ca(OH)2)",
            (
                "<mrow><mi>M</mi><mo>(</mo><mrow><mtext>Ca</mtext><mtext>(</mtext>"
                "<mtext>O</mtext><mtext>H</mtext><msub><mtext>)</mtext><mn>2</mn>"
                "</msub></mrow><mo>)</mo></mrow>"
            ),
        ),
    ],
)
def test_a_name_can_be_read(name: str, mathml: str) -> None:
    assert name_to_mathml(name) == mathml


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ("x = (885.45 - 41.07) / 3", "x=885.45−41.073"),
        ("12.50 M", "12.50M"),
        ("2e-3 y", "2×10−3y"),
    ],
)
def test_the_digits_stand_as_they_were_typed(line: str, text: str) -> None:
    shown = read(to_mathml(read_line(line)))
    assert "".join(shown.itertext()) == text


@pytest.mark.parametrize(
    "relation",
    [
        "ratio(soap, oil)",
        "log10(x)^2",
        "exp10(-x)^2",
        "sqrt(x + 1)",
        "max(x, min(1, y))",
    ],
)
def test_a_function_is_one_well_formed_element(relation: str) -> None:
    shown = read(to_mathml(read_relation(relation)))
    assert {each.tag for each in shown.iter()} <= {
        *("mrow", "mi", "mo", "mn", "mtext", "msup", "msub", "msqrt")
    }
