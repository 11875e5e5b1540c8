"""Formulas as they are printed."""

from __future__ import annotations

import pytest

from workbook.front.formula import show_formula


@pytest.mark.parametrize(
    ("formula", "shown"),
    [
        ("C57H104O6", "C<sub>57</sub>H<sub>104</sub>O<sub>6</sub>"),
        ("Ca(OH)2", "Ca(OH)<sub>2</sub>"),
        ("CuSO4·5H2O", "CuSO<sub>4</sub>·5H<sub>2</sub>O"),
    ],
)
def test_counts_in_a_formula_are_lowered(formula: str, shown: str) -> None:
    assert show_formula(formula) == shown


def test_a_hostile_formula_is_escaped() -> None:
    assert show_formula("<b>2") == "&lt;b&gt;2"
