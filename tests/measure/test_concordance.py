"""Which runs of a titration agree, and the mean of those that do."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest

from workbook.measure.concordance import (
    concordant_known,
    concordant_mean,
    find_concordant,
)
from workbook.measure.figures import Known


# Common practice, no source: runs within 0.10 mL of each other count, a rough one not.
@pytest.mark.parametrize(
    ("runs", "chosen"),
    [
        ([13.20, 12.40, 12.45], (1, 2)),
        ([12.40, 12.45, 12.35], (0, 1, 2)),
        ([12.40, 12.50, 13.00], (0, 1)),
        ([12.40, 12.30, 13.00], (0, 1)),
        ([12.40, 12.40, 12.95], (0, 1)),
        ([24.00, 23.10, 23.15, 24.60, 23.12], (1, 2, 4)),
    ],
)
def test_the_largest_group_within_the_limit_agrees(
    runs: list[float], chosen: tuple[int, ...]
) -> None:
    assert find_concordant(0.10, runs) == chosen


@pytest.mark.parametrize(
    "runs",
    [
        [12.40, 12.60, 12.80],
        [12.40, 12.49, 12.58],
        [12.40, 12.42, 13.40, 13.42],
        [math.nan, 12.40, 13.00],
    ],
)
def test_where_it_is_not_settled_none_is_chosen(runs: list[float]) -> None:
    assert find_concordant(0.10, runs) == ()
    assert math.isnan(concordant_mean(0.10, *runs))


def test_the_mean_leaves_the_rough_run_out() -> None:
    # (12.40 + 12.46) / 2 = 12.43; with the rough run it would be 12.69.
    assert concordant_mean(0.10, 13.20, 12.40, 12.46) == pytest.approx(12.43)


def known(text: str) -> Known:
    return Known(Decimal(text), -len(text.partition(".")[2]))


def test_a_mean_of_titres_is_good_to_their_place() -> None:
    mean = concordant_known(known("0.1"), known("13.2"), known("12.40"), known("12.46"))
    assert (mean.value, mean.place) == (Decimal("12.43"), -2)


def test_a_mean_that_is_not_settled_has_no_value() -> None:
    with pytest.raises(ArithmeticError):
        concordant_known(known("0.1"), known("12.4"), known("12.6"), known("12.9"))
