"""Intervals of shares, beside published tables."""

from __future__ import annotations

import pytest

from workbook.report.share import Share, compare


# R. G. Newcombe, Stat. Med. 17 (1998) 857-872, table I, method 3; read second-hand.
@pytest.mark.parametrize(
    ("hits", "count", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0000, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ],
)
def test_an_interval_is_that_of_the_table(
    hits: int, count: int, low: float, high: float
) -> None:
    assert Share(hits, count).interval() == pytest.approx((low, high), abs=6e-5)


# R. G. Newcombe, Stat. Med. 17 (1998) 873-890, table II, method 10; read second-hand.
@pytest.mark.parametrize(
    ("one", "other", "low", "high"),
    [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((6, 7), (2, 7), 0.0582, 0.8062),
        ((5, 56), (0, 29), -0.0381, 0.1926),
        ((0, 10), (0, 20), -0.1611, 0.2775),
        ((10, 10), (0, 20), 0.6791, 1.0000),
    ],
)
def test_a_difference_is_that_of_the_table(
    one: tuple[int, int], other: tuple[int, int], low: float, high: float
) -> None:
    found = compare(Share(*one), Share(*other))
    assert found == pytest.approx((low, high), abs=6e-5)


def test_more_confidence_makes_a_wider_interval() -> None:
    low, high = Share(8, 10).interval()
    lower, higher = Share(8, 10).interval(0.999)
    assert lower < low < high < higher
