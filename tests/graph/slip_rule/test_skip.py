"""A step left out, or started from something else; values from the notes."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, times_right, with_quantity, wrong_values
from workbook.graph.slip import SlipKind


def test_a_volume_can_stand_for_the_mass() -> None:
    # Notes N03: V/M for m/M, off by 1/0.915.
    found = times_right(build(), "oil_amount", SlipKind.VOLUME_AS_MASS)
    assert found == [pytest.approx(1.093, abs=5e-4)]


def test_a_planned_value_can_stand_for_the_measured_one() -> None:
    # Notes Y10 and R14: 24.0 g planned, 885.45 g/mol.
    found = wrong_values(build(), "oil_amount", SlipKind.PLANNED_VALUE)
    assert found == [pytest.approx(24.0 / 885.45, rel=1e-4)]


def test_what_was_planned_can_be_given_as_what_was_measured() -> None:
    found = wrong_values(build(), "oil_mass", SlipKind.PLANNED_VALUE)
    assert found == [pytest.approx(24.0)]


def test_equal_volumes_neutralise_nothing() -> None:
    # Notes W05: the volume of the lye, 20.0 mL, or of any other liquid.
    found = wrong_values(build(), "acid_volume", SlipKind.EQUAL_VOLUMES)
    assert pytest.approx(20.0) in found


def test_equal_masses_neutralise_nothing() -> None:
    # Notes W06: as many grams of acid as of the base that is left.
    relation = "chalk_amount * ratio(acid, chalk) * acid.molar_mass"
    graph = with_quantity("grams", f'unit = "g"\nof = "acid"\nis = "{relation}"')
    assert len(slips(graph, "grams", SlipKind.EQUAL_MASSES)) == 1


def test_a_part_can_stand_for_the_whole() -> None:
    # Notes Y11: the sample is not scaled up by the two volumes.
    row = 'unit = "g"\nis = "chalk_mass * dish_and_salt / dish"'
    graph = with_quantity("whole", row)
    assert slips(graph, "whole", SlipKind.PART_NOT_SCALED) != []


def test_a_yield_is_no_part_of_a_whole_sample() -> None:
    assert slips(build(), "percent_yield", SlipKind.PART_NOT_SCALED) == []
