"""Where cases for practice come from."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL, make_lab
from tests.support.soap import LAB
from tests.support.variant import VARIED, say_variant
from workbook.errors import AuthorError, CheckerRefusedError
from workbook.solver.practice import PracticeSource

if TYPE_CHECKING:
    from pathlib import Path


def test_practice_values_are_fresh_each_time(practice: PracticeSource) -> None:
    first, second = practice.fresh(), practice.fresh()
    assert first.student != second.student
    assert practice.case(first).values != practice.case(second).values
    assert practice.case(first).values == practice.case(first).values


def test_practice_needs_no_roster_and_no_key(practice: PracticeSource) -> None:
    sheet = practice.fresh()
    assert practice.sheet(sheet).id == sheet


def test_another_process_does_not_judge_by_values_of_its_own(
    practice: PracticeSource,
) -> None:
    """A solver that was started anew has lost the old one's key."""
    later = PracticeSource(OLIVE_OIL)
    with pytest.raises(CheckerRefusedError, match="values of this practice sheet"):
        later.case(practice.fresh())


def test_a_broken_lab_is_found_before_anything_is_served(tmp_path: Path) -> None:
    folder = tmp_path / LAB
    shutil.copytree(OLIVE_OIL, folder)
    file = folder / "lab.toml"
    text = file.read_text(encoding="utf-8").replace(
        "oil_volume * oil", "oil_volme * oil"
    )
    file.write_text(text, encoding="utf-8")
    with pytest.raises(AuthorError, match="oil_volme"):
        PracticeSource(folder)


def test_a_practice_sheet_is_of_the_variant_that_was_drawn(tmp_path: Path) -> None:
    practice = PracticeSource(make_lab(tmp_path, VARIED).path.parent)
    for _ in range(8):
        sheet_id = practice.fresh()
        case = practice.case(sheet_id)
        shown = practice.show(sheet_id, case).givens[0].shown
        assert shown == say_variant(case)
