"""Reading relations: what they mean, and what is refused."""

from __future__ import annotations

import ast
import time
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.errors import RelationError
from workbook.relation.reader import read_line, read_relation
from workbook.relation.tree import (
    Call,
    Equality,
    Name,
    Negative,
    Node,
    Number,
    Operation,
    Sign,
)

_PYTHON_SIGNS: dict[type[ast.operator], Sign] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Pow: "^",
}


def python_tree(text: str) -> Node:
    """Return the tree that Python's own parser makes of *text*."""

    def turn(node: ast.expr) -> Node:
        match node:
            case ast.BinOp(left, sign, right):
                return Operation(_PYTHON_SIGNS[type(sign)], turn(left), turn(right))
            case ast.UnaryOp(ast.USub(), of):
                return Negative(turn(of))
            case ast.Name(name):
                return Name(name)
        return Number(ast.get_source_segment(text, node) or "")

    return turn(ast.parse(text, mode="eval").body)


_operands = st.sampled_from(["2", "12.50", ".5", "1e-3", "E", "I", "oil_mass", "-x"])
_sums = st.recursive(
    _operands,
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from("+-*/"), inner).map("".join),
        inner.map("({})".format),
        st.tuples(
            st.sampled_from(["x", "(a-1)"]), st.sampled_from(["**2", "**-1"])
        ).map("".join),
    ),
    max_leaves=12,
)


# Second opinion: Python's grammar gives the same signs the same precedence.
@given(_sums)
def test_signs_bind_as_they_do_in_pythons_own_grammar(text: str) -> None:
    assert read_relation(text) == python_tree(text)
    assert read_line(text) == python_tree(text)


@pytest.mark.parametrize(
    ("text", "in_full"),
    [
        ("3M", "3*M"),
        ("3 M", "3*M"),
        ("3(x+1)", "3*(x+1)"),
        ("(a)(b)", "(a)*(b)"),
        ("2x y", "2*x*y"),
        ("2x^2 y", "2*x^2*y"),
        ("(a+b)c", "(a+b)*c"),
        ("1/2 + 3x", "1/2 + 3*x"),
        ("2 \N{MULTIPLICATION SIGN} x", "2*x"),
        ("2 \N{MIDDLE DOT} x", "2*x"),
        ("2 \N{DOT OPERATOR} x", "2*x"),
        ("x \N{DIVISION SIGN} 3", "x/3"),
        ("x \N{MINUS SIGN} 3", "x-3"),
        ("x \N{EN DASH} 3", "x-3"),
        ("x\N{NO-BREAK SPACE}+ 3", "x+3"),
        ("2**3**2", "2^(3^2)"),
    ],
)
def test_a_student_may_write_as_on_paper(text: str, in_full: str) -> None:
    assert read_line(text) == read_relation(in_full)


def test_powers_group_from_the_right() -> None:
    squared = Operation("^", Number("3"), Number("2"))
    assert read_relation("2^3^2") == Operation("^", Number("2"), squared)


@pytest.mark.parametrize("letter", [*"EINSOQ", "\N{GREEK SMALL LETTER RHO}"])
def test_every_letter_is_an_ordinary_name(letter: str) -> None:
    assert read_line(letter) == Name(letter)


def test_a_name_may_have_parts_with_dots_between() -> None:
    assert read_relation("oil.molar_mass") == Name("oil.molar_mass")


@pytest.mark.parametrize("label", ["M(NaOH)", "M(C3H5)", "n(Ca(OH)2)", "M(Na)"])
def test_a_bracketed_formula_belongs_to_the_name(label: str) -> None:
    assert read_line(f"3{label}") == Operation("*", Number("3"), Name(label))


@pytest.mark.parametrize("text", ["12", "12.50", ".5", "1e-3", "6.022e23"])
def test_a_number_keeps_its_text(text: str) -> None:
    assert read_relation(text) == Number(text)


def test_an_equals_sign_makes_an_equality() -> None:
    assert read_line("x = 1") == Equality(Name("x"), Number("1"))


def test_a_lab_file_may_call_a_function() -> None:
    assert read_relation("ratio(soap, oil)") == Call(
        "ratio", (Name("soap"), Name("oil"))
    )


@pytest.mark.parametrize("text", ["1/2x", "a/3(b)", "a/b c", "1/2 (x)"])
def test_a_product_after_a_division_is_asked_about(text: str) -> None:
    with pytest.raises(RelationError, match=r"above or below the line"):
        read_line(text)


@pytest.mark.parametrize("text", ["M(x)", "x (y+1)", "a(2)"])
def test_a_name_before_a_bracket_is_asked_about(text: str) -> None:
    with pytest.raises(RelationError, match=r"For a product, write [Mxa]\*"):
        read_line(text)


@pytest.mark.parametrize(
    ("text", "position", "says"),
    [
        ("", 0, "Nothing is written here"),
        ("  ", 2, "Nothing is written here"),
        ("3 +", 3, "ends after '+'"),
        ("3 + * x", 4, "character 5 stands '*'"),
        ("+3", 0, "character 1 stands '+'"),
        ("(x", 0, "opens at character 1 is not closed"),
        ("x)", 1, "character 2 closes no bracket"),
        ("x==1", 2, "stands '=' after '='"),
        ("x=1=2", 3, "has no place here"),
        ("(x=1)", 2, "has no place here"),
        ("12,5x", 0, "Use a point: 12.5"),
        ("1,234.5", 0, "no other mark"),
        ("x, y", 1, "decimal mark is a point"),
        ("1.2.3", 0, "at most one point"),
        ("3 4", 2, "a sign is missing"),
        ("x 4", 2, "a sign is missing"),
        ("sqrt(x)", 0, "functions are not read"),
        ("x^2.5", 1, "whole number"),
        ("x^y", 1, "whole number"),
        ("x^13", 1, "comes to 13"),
        ("x^-13", 1, "comes to 13"),
        ("2^0^-1", 1, "whole number"),
        ("(x^4)^4", 5, "multiply up to 16"),
        ("x\N{SUPERSCRIPT TWO}", 1, "write '^2'"),
        ("C\N{SUBSCRIPT THREE}", 1, "write '3'"),
        ("\N{GREEK CAPITAL LETTER MU}", 0, "looks like 'M'"),
        ("\N{CYRILLIC SMALL LETTER A}", 0, "CYRILLIC SMALL LETTER A"),
    ],
)
def test_a_refusal_says_where_and_what(text: str, position: int, says: str) -> None:
    with pytest.raises(RelationError) as caught:
        read_line(text)
    assert caught.value.position == position
    assert says in caught.value.reason
    assert caught.value.text == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("3 M", "For a product, write *"),
        ("x = 1", "a lab file's relation has none"),
        ("12,5", "decimal mark is a point"),
        ("a \N{MULTIPLICATION SIGN} b", "write '*'"),
        ("rato(soap, oil)", "Did you mean 'ratio'?"),
        ("dish(oil)", "known are concordant, exp10, log10, max, min, ratio, sqrt"),
        ("ratio(soap)", "is given 1 and takes 2"),
        ("min(a)", "is given 1 and takes 2 to 8"),
        ("ratio(soap, 2 * oil)", "the names of two species"),
        ("ratio(soap, oil.density)", "the names of two species"),
        ("sqrt()", "stands ')' after '('"),
    ],
)
def test_a_lab_file_is_read_strictly(text: str, says: str) -> None:
    with pytest.raises(RelationError) as caught:
        read_relation(text)
    assert says in caught.value.reason


HOSTILE = [
    "__import__('os').system('x')",
    "().__class__.__bases__[0]",
    "lambda: 0",
    "[1]*9",
    "{1: 2}",
    "x; y",
    "x := 1",
    '"x"',
    "x.__class__",
    "exec(x)",
    "9**9**9",
    "9**-9**9",
    "((9^12)^12)^12",
    "10^12^12",
    "1e999999999",
    "1" * 31,
    "1" * 100_000,
    "(" * 25 + "x" + ")" * 25,
    "(" * 100_000,
    "-" * 199 + "x",
    "2^" * 99 + "2",
    "+".join("x" * 100) + "+x",
    "x " * 99,
    "M" + "(Na" * 60 + ")" * 19,
    "M(" + "Na" * 98,
    "x" * 201,
    "\x00",
    "\ud800",
    "\N{RIGHT-TO-LEFT OVERRIDE}x",
    "x\N{ZERO WIDTH SPACE}y",
    "\N{FULLWIDTH DIGIT ONE}",
    "\N{ARABIC-INDIC DIGIT ONE}",
    "\N{MATHEMATICAL BOLD CAPITAL M}",
    "%s%n",
    "\\input{x}",
]


def seconds_to_refuse(text: str) -> float:
    """Return the shortest of three times, so that a busy machine is no failure."""
    times = []
    for _ in range(3):
        for read in (read_line, read_relation):
            start = time.perf_counter()
            with pytest.raises(RelationError):
                read(text)
            times.append(time.perf_counter() - start)
    return min(times)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_a_hostile_text_is_refused_in_milliseconds(text: str) -> None:
    assert seconds_to_refuse(text) < 0.05


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_a_refusal_stays_short(text: str) -> None:
    with pytest.raises(RelationError) as caught:
        read_line(text)
    assert len(caught.value.reason) < 400


_written_badly = st.one_of(
    st.text(max_size=210),
    st.text(alphabet="0123456789.,eE+-*/^()= xyM_NaO", max_size=210),
)


@given(_written_badly)
def test_any_text_is_read_or_refused(text: str) -> None:
    for read in (read_line, read_relation):
        with suppress(RelationError):
            read(text)
