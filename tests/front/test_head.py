"""The head of a page."""

from __future__ import annotations

import msgspec
import pytest

from tests.front.stage import SHEET
from workbook.front.head import show_head


@pytest.mark.parametrize(
    "part",
    [
        "mass of cream to plan for: 25.0 g",
        "Ties go to the even digit.",
    ],
)
def test_what_is_the_students_own_stands_in_the_head(part: str) -> None:
    assert part in show_head(SHEET, (), is_issued=True)


def test_a_notice_is_told() -> None:
    shown = show_head(SHEET, ("Line 3 is damaged.",), is_issued=True)
    assert '<p class="wb-told">Line 3 is damaged.</p>' in shown


def test_a_sheet_for_practice_says_so() -> None:
    shown = show_head(SHEET, (), is_issued=False)
    assert "for practice" in shown
    assert "key can be read" in shown
    assert "for practice" not in show_head(SHEET, (), is_issued=True)


def test_what_a_lab_leaves_empty_has_no_heading() -> None:
    bare = msgspec.structs.replace(SHEET, givens=(), rules=())
    assert "<h4>" not in show_head(bare, (), is_issued=True)
