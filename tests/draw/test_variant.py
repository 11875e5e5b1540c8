"""Which variant a student has, by key, lab and student alone."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from tests.support.lab import make_lab
from tests.support.variant import KEY, VARIED
from workbook.draw.key import CourseKey
from workbook.draw.variant import choose_variant
from workbook.labfile.half import USUAL

if TYPE_CHECKING:
    from pathlib import Path


def test_each_variant_comes_as_often(tmp_path: Path) -> None:
    public = make_lab(tmp_path, VARIED).public
    drawn = Counter(choose_variant(KEY, public, f"s{n}") for n in range(2000))
    assert drawn.keys() == {USUAL, "oxalic"}
    # 1000 of 2000, with a standard deviation of 22.
    assert abs(drawn[USUAL] - 1000) < 90


def test_it_is_the_same_each_time_and_another_with_another_key(tmp_path: Path) -> None:
    public = make_lab(tmp_path, VARIED).public
    students = [f"s{number}" for number in range(40)]
    once, again, other = (
        [choose_variant(key, public, student) for student in students]
        for key in (KEY, KEY, CourseKey(b"\1" * 32))
    )
    assert once == again != other


def test_a_lab_without_variants_is_the_same_for_all(tmp_path: Path) -> None:
    assert choose_variant(KEY, make_lab(tmp_path).public, "s1") == USUAL
