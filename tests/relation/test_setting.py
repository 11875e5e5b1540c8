"""Setting a tree: the pieces, and the brackets that keep it the same tree."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.relation.reader import read_line
from workbook.relation.setting import set_tree

if TYPE_CHECKING:
    from collections.abc import Sequence


class Plain:
    """A notation in which each piece can be told from the others."""

    def number(self, figures: str, power: str) -> str:
        """Set a number."""
        return f"{figures} of ten to {power}" if power else figures

    def name(self, text: str) -> str:
        """Set a name."""
        return text

    def row(self, left: str, sign: str, right: str) -> str:
        """Set a sign and its sides."""
        return f"{left}{sign}{right}"

    def product(self, left: str, right: str, *, is_close: bool) -> str:
        """Set two factors."""
        return f"{left}{' ' if is_close else '*'}{right}"

    def fraction(self, top: str, bottom: str) -> str:
        """Set a fraction."""
        return f"<{top}|{bottom}>"

    def power(self, of: str, exponent: str) -> str:
        """Set a power."""
        return f"{of}^{exponent}"

    def call(self, name: str, arguments: Sequence[str]) -> str:
        """Set a function."""
        return f"{name}{list(arguments)}"

    def bracket(self, of: str) -> str:
        """Set brackets."""
        return f"({of})"


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("x = a + b", "x=a+b"),
        ("(a + b)/(c*d)", "<a+b|c*d>"),
        ("3(x + 1)", "3 (x+1)"),
        ("3*4", "3*4"),
        ("1.50e-3", "1.50 of ten to -3"),
        ("2e+4", "2 of ten to 4"),
    ],
)
def test_each_piece_is_set_by_the_notation(line: str, shown: str) -> None:
    assert set_tree(read_line(line), Plain()) == shown


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("a - (b - c)", "a-(b-c)"),
        ("a + (b - c)", "a+b-c"),
        ("a - -b*c", "a-(-b*c)"),
        ("a - (-b + c)", "a-(-b+c)"),
        ("a + (-b/c)", "a+<-b|c>"),
        ("(a/b)^2", "(<a|b>)^2"),
        ("(-a)^2", "(-a)^2"),
        ("(1e-3)^2", "(1 of ten to -3)^2"),
    ],
)
def test_brackets_keep_the_tree_and_no_two_signs_meet(line: str, shown: str) -> None:
    assert set_tree(read_line(line), Plain()) == shown
