"""Factors upside down, left out, used twice; shares from the notes on the trade."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, times_right, with_quantity
from workbook.graph.slip import SlipKind

#: The notes, 1.3, 1.4 and 1.7: density 0.915, its lye 1.219 and 20.0 %, ratio 3.
CASES = (
    ("oil_mass", SlipKind.DENSITY_UPSIDE_DOWN, "D01", 1.194),
    ("oil_mass", SlipKind.DENSITY_LEFT_OUT, "D02", 1.093),
    ("oil_mass", SlipKind.DENSITY_TWICE, "D04", 0.915),
    ("lye_amount", SlipKind.SOLUTION_AS_PURE, "S01", 5),
    ("lye_amount", SlipKind.SOLUTION_DENSITY_LEFT_OUT, "S03", 0.820),
    ("lye_amount", SlipKind.SOLUTION_DENSITY_UPSIDE_DOWN, "S04", 0.673),
    ("lye_amount", SlipKind.PERCENT_UPSIDE_DOWN, "S05", 25),
    ("soap_by_oil", SlipKind.COEFFICIENTS_LEFT_OUT, "N04", 1 / 3),
    ("soap_by_oil", SlipKind.RATIO_UPSIDE_DOWN, "N05", 1 / 9),
    ("soap_by_oil", SlipKind.RATIO_TWICE, "N06", 3),
    ("acid_amount", SlipKind.COEFFICIENTS_LEFT_OUT, "W01", 2),
    ("acid_amount", SlipKind.RATIO_UPSIDE_DOWN, "W02", 4),
)


@pytest.mark.parametrize(("step", "kind", "number", "share"), CASES, ids=str)
def test_a_slip_of_the_notes_is_off_by_the_share_of_the_notes(
    step: str, kind: SlipKind, number: str, share: float
) -> None:
    found = times_right(build(), step, kind)
    assert found == [pytest.approx(share, rel=6e-4)], number


def test_a_molar_mass_on_the_wrong_side_multiplies_twice() -> None:
    # Notes N01: m·M for m/M, hence off by M² = 885.45².
    found = times_right(build(), "oil_amount", SlipKind.MOLAR_MASS_UPSIDE_DOWN)
    assert found == [pytest.approx(885.453**2)]


def test_a_fraction_can_stand_upside_down() -> None:
    # Notes N02: M/m for m/M; m = 25.0 × 0.915 = 22.875 g.
    found = times_right(build(), "oil_amount", SlipKind.FRACTION_UPSIDE_DOWN)
    assert found == [pytest.approx((885.453 / 22.875) ** 2)]


def test_a_product_is_no_fraction() -> None:
    assert slips(build(), "oil_mass", SlipKind.FRACTION_UPSIDE_DOWN) == []


def test_one_of_several_values_can_be_forgotten() -> None:
    row = 'unit = "g^2"\nis = "chalk_mass * dish"'
    graph = with_quantity("square", row)
    assert len(slips(graph, "square", SlipKind.FACTOR_LEFT_OUT)) == 2
    assert len(slips(graph, "square", SlipKind.FACTOR_TWICE)) == 2


def test_a_single_value_is_not_forgotten() -> None:
    assert slips(build(), "oil_mass", SlipKind.FACTOR_LEFT_OUT) == []


def test_the_values_of_a_percentage_have_slips_of_their_own() -> None:
    for kind in (SlipKind.FACTOR_LEFT_OUT, SlipKind.FRACTION_UPSIDE_DOWN):
        assert slips(build(), "percent_yield", kind) == []
