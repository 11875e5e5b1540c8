"""Digits dropped too soon; sums by hand, for the student of `tests.support.student`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case, verdict_on
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case

CUT, EARLY = ALONE[SlipKind.CUT_OFF], ALONE[SlipKind.ROUNDED_EARLY]


@pytest.mark.parametrize(("text", "kind"), [("12.11 g", CUT), ("12.12 g", None)])
def test_a_digit_that_was_cut_off_is_told(
    compiled: CompiledGraph, text: str, kind: str | None
) -> None:
    # 13.3 mL × 0.911 g/mL = 12.1163 g.
    case = make_case(compiled, oil_volume=13.3)
    found = verdict_on(case, "oil_mass", text, oil_volume="13.3 mL")
    assert found.value_holds is (kind is None)
    assert kind is None or found.sentence == kind


def test_two_ways_to_drop_a_digit_are_none(case: Case) -> None:
    # 12.5 × 0.911 = 11.3875, cut to 11.38; and 12.5 × 0.91 = 11.375, rounded to 11.38.
    found = verdict_on(case, "oil_mass", "11.38 g", oil_volume="12.5 mL")
    assert found.outcome is Outcome.WRONG


@pytest.mark.parametrize(
    "text",
    [
        # 0.039 mol × 304.45 g/mol.
        "11.87 g",
        # 0.04 mol × 304.45 g/mol.
        "12.18 g",
    ],
)
def test_a_value_rounded_too_soon_is_told(case: Case, text: str) -> None:
    earlier = {"soap_amount": "0.03858 mol"}
    found = verdict_on(case, "theoretical_yield", text, **earlier)
    assert (found.outcome, found.sentence) == (Outcome.SLIP, EARLY)


def test_three_figures_are_not_too_few(case: Case) -> None:
    # 0.0386 mol × 304.45 g/mol = 11.752 g, from 0.03858 mol: as is common.
    earlier = {"soap_amount": "0.0386 mol"}
    assert verdict_on(case, "theoretical_yield", "11.75 g", **earlier).value_holds


def test_what_is_right_after_all_is_not_told_as_rounded(case: Case) -> None:
    # The molar mass with two figures is 300: far from 304.45, and no honest habit.
    found = verdict_on(case, "theoretical_yield", "9.99 g", soap_amount="0.03858 mol")
    assert found.outcome is Outcome.WRONG
