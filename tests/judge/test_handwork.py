"""Relations worked out by somebody who rounds each intermediate; sums by hand."""

from __future__ import annotations

import math

import pytest

from tests.support.slip import build
from workbook.judge.handwork import work_by_hand
from workbook.relation.reader import read_relation

VALUES = {"a": 1.23, "b": 4.56, "c": 7.89}


@pytest.mark.parametrize(
    ("text", "figures", "value"),
    [
        # 1.23 × 4.56 = 5.6088, noted as 5.6; 5.6 / 7.89 = 0.7098.
        ("a * b / c", 2, 0.71),
        # Noted as 5.61; 5.61 / 7.89 = 0.71103.
        ("a * b / c", 3, 0.711),
        # 7.89 - 1.23 = 6.66, noted as 7; 7 + 4.56 = 11.56, noted as 10.
        ("c - a + b", 1, 10.0),
        ("-a ^ 2", 2, -1.5),
        ("max(a, b)", 2, 4.6),
        ("ratio(soap, oil) * a", 2, 3.7),
    ],
)
def test_every_intermediate_is_rounded(text: str, figures: int, value: float) -> None:
    found = work_by_hand(build(), read_relation(text), VALUES, figures)
    assert found == pytest.approx(value)


@pytest.mark.parametrize("text", ["a / (b - b)", "log10(a - b)"])
def test_what_has_no_value_is_no_number(text: str) -> None:
    assert math.isnan(work_by_hand(build(), read_relation(text), VALUES, 3))
