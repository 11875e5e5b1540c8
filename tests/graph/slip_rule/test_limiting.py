"""Going by a reagent that does not run out; values from the notes on the trade."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, times_right, wrong_values
from workbook.graph.slip import SlipKind


def test_the_reagent_in_excess_is_off_as_in_the_notes() -> None:
    # Notes L06: × 1.573.
    found = times_right(build(), "soap_by_oil", SlipKind.REAGENT_IN_EXCESS)
    assert found == [pytest.approx(1.573, abs=1e-3)]


def test_the_smallest_of_two_can_be_the_other_one() -> None:
    # Notes: oil gives 0.0775 mol of soap, the lye 0.1219.
    found = wrong_values(build(), "soap_amount", SlipKind.REAGENT_IN_EXCESS)
    assert pytest.approx(0.1219, abs=5e-5) in found


@pytest.mark.parametrize("step", ["soap_amount", "soap_by_oil"])
def test_what_each_gives_can_be_added_up(step: str) -> None:
    # Notes L07: 0.0775 + 0.1219.
    found = wrong_values(build(), step, SlipKind.AMOUNTS_ADDED)
    assert found == [pytest.approx(0.1994, abs=1e-4)]


def test_a_step_without_a_choice_of_reagent_has_none() -> None:
    assert slips(build(), "oil_amount", SlipKind.REAGENT_IN_EXCESS) == []
