"""The mean of concordant runs over spans, and over a class."""

from __future__ import annotations

import math

import numpy as np
import pytest

from workbook.graph.concordance import concordant_column, concordant_span
from workbook.graph.span import Span

LIMIT = Span(0.10, 0.10)


def test_a_span_holds_the_means_of_all_its_ends() -> None:
    # Runs of 12.40 and 12.44, each 0.02 either way: from 12.40 to 12.44.
    runs = (Span(12.38, 12.42), Span(12.42, 12.46), Span(13.0, 13.2))
    found = concordant_span(LIMIT, *runs)
    assert (found.low, found.high) == pytest.approx((12.40, 12.44))


def test_a_run_that_may_or_may_not_agree_widens_the_span() -> None:
    # The third agrees at its low end, 12.50, and not at its high end, 12.55.
    runs = (Span(12.40, 12.40), Span(12.44, 12.44), Span(12.50, 12.55))
    found = concordant_span(LIMIT, *runs)
    assert found.low == pytest.approx(12.42)
    assert found.high == pytest.approx((12.40 + 12.44 + 12.55) / 3)


def test_a_span_over_what_is_not_settled_has_no_value() -> None:
    runs = (Span(12.40, 12.40), Span(12.58, 12.62), Span(13.0, 13.0))
    found = concordant_span(LIMIT, *runs)
    assert math.isnan(found.low)
    assert math.isnan(found.high)


def test_ends_that_settle_nothing_leave_the_others_their_say() -> None:
    # 12.40 and 12.48 agree, 12.40 and 12.52 do not: the mean can be 12.44 and more.
    runs = (Span(12.40, 12.40), Span(12.48, 12.52), Span(13.0, 13.0))
    found = concordant_span(LIMIT, *runs)
    assert (found.low, found.high) == pytest.approx((12.44, 12.46))


def test_each_student_of_a_class_has_their_own_choice() -> None:
    first, second = np.array([12.40, 12.40, 12.40]), np.array([12.44, 13.40, 12.90])
    third = np.array([13.20, 12.44, 13.40])
    found = concordant_column(np.asarray(0.10), first, second, third)
    assert found[:2].tolist() == pytest.approx([12.42, 12.42])
    assert math.isnan(found[2])
