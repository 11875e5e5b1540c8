"""The head of a page."""

from __future__ import annotations

import msgspec
import pytest

from tests.front.stage import SHEET
from workbook.front.head import show_formula, show_head


@pytest.mark.parametrize(
    "part",
    [
        "Cold cream",
        "Beeswax is melted into almond oil.",
        "mass of cream to plan for: 25.0 g",
        "A + B -&gt; C",
        "0.911 g/mL",
        "H000 none",
        "Your site&#x27;s own rules decide.",
        "Ties go to the even digit.",
    ],
)
def test_everything_that_is_no_step_stands_in_the_head(part: str) -> None:
    assert part in show_head(SHEET, (), is_issued=True)


def test_a_notice_is_told() -> None:
    shown = show_head(SHEET, ("Line 3 is damaged.",), is_issued=True)
    assert '<p class="wb-told">Line 3 is damaged.</p>' in shown


def test_a_sheet_for_practice_says_so() -> None:
    assert "for practice" in show_head(SHEET, (), is_issued=False)
    assert "for practice" not in show_head(SHEET, (), is_issued=True)


def test_what_a_lab_leaves_empty_has_no_heading() -> None:
    bare = msgspec.structs.replace(
        SHEET, equations=(), reagents=(), cautions=(), givens=(), rules=()
    )
    assert "<h4>" not in show_head(bare, (), is_issued=True)


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
