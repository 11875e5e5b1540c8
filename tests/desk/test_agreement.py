"""The agreement of markers, beside a published example."""

from __future__ import annotations

from itertools import zip_longest

import pytest

from workbook.desk.agreement import find_agreement

# Three coders and fifteen units, some left out: the computational example that goes
# with K. Krippendorff's alpha in the open literature; alpha for intervals is 0.811.
A = "*****34121133*3"
B = "1*213343*******"
C = "**21344*21133*4"


def columns() -> list[list[float]]:
    """Return what each unit was given."""
    return [
        [float(value) for value in unit if value != "*"]
        for unit in zip_longest(A, B, C, fillvalue="*")
    ]


def test_alpha_is_that_of_the_published_example() -> None:
    assert find_agreement(columns()) == pytest.approx(0.811, abs=5e-4)


def test_markers_who_all_agree_have_alpha_one() -> None:
    assert find_agreement([[1, 1], [2, 2, 2], [0, 0]]) == 1


def test_marks_that_are_all_alike_tell_nothing() -> None:
    assert find_agreement([[2, 2], [2, 2]]) is None


def test_one_marker_tells_nothing() -> None:
    assert find_agreement([[1], [2], []]) is None


def test_markers_who_turn_each_other_round_are_below_chance() -> None:
    # Two texts, 0 and 2 against 2 and 0: D_o = 4, D_e = 4 * 8 / 12 = 8/3.
    assert find_agreement([[0, 2], [2, 0]]) == pytest.approx(1 - 4 / (8 / 3))
