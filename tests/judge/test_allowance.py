"""What the sheet promises before an answer is given."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.judge.test_band import widened
from workbook.judge.allowance import say_allowances

if TYPE_CHECKING:
    from workbook.judge.case import Case


@pytest.fixture
def said(case: Case) -> dict[str, str]:
    return say_allowances(case)


def share(sentence: str) -> float:
    """Return the percentage that a sentence promises."""
    found = re.search(r"about ([\d.]+) % to either side", sentence)
    assert found is not None, sentence
    return float(found[1])


def test_a_scale_allows_one_estimated_digit(said: dict[str, str]) -> None:
    assert said["oil_volume"] == (
        "Accepted: within 0.1 mL of what the scale shows, to the digit it supports."
    )


def test_a_display_allows_nothing(said: dict[str, str]) -> None:
    assert said["dish"] == "Accepted: the display, every digit of it."


def test_a_single_exact_step_allows_rounding_only(said: dict[str, str]) -> None:
    assert said["oil_mass"] == (
        "Accepted: what follows from your own values, rounded to the last digit that "
        "you write."
    )


@pytest.mark.parametrize(
    ("step", "percent"),
    [
        # By hand for 11.5 mL of lye: 14.0185 ± 0.05 is 0.36 %, 2.8037 ± 0.005 is
        # 0.18 %, the table of 39.997 ± 0.008 is 0.02 %; 0.55 % together.
        ("lye_amount", 0.6),
        # A third of 885.453 ± 0.162 and of 41.073 ± 0.012, 22.990 ± 0.005, and three
        # roundings by 0.005: 0.054 + 0.004 + 0.005 + 0.015 = 0.078, 0.026 % of 304.45.
        ("soap.molar_mass", 0.03),
    ],
)
def test_the_share_is_that_of_a_sum_by_hand(
    said: dict[str, str], step: str, percent: float
) -> None:
    assert share(said[step]) == percent


def test_every_step_with_a_value_says_what_it_accepts(
    case: Case, said: dict[str, str]
) -> None:
    asks = case.graph.lab.public.asks
    assert set(said) == {ask.id for ask in asks if ask.of is not None}


def test_no_promise_is_flat_or_lazy(said: dict[str, str]) -> None:
    """Whoever marks with one flat 5 % lets a lost hydrogen and a filter paper in."""
    shares = [share(text) for text in said.values() if "either side" in text]
    assert max(shares) < 2
    assert len(set(shares)) > 2


def test_what_an_author_adds_is_said(case: Case) -> None:
    wide = say_allowances(widened(case, "oil_mass", "5 %"))
    assert wide["oil_mass"].endswith(" The author of this lab allows 5 % more.")
