"""Powers of ten, percentages, and constants of gases."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, times_right, with_quantity, wrong_values
from workbook.graph.slip import SlipKind


@pytest.mark.parametrize(
    ("kind", "factor"),
    # Notes N14, U01 to U03 and U09.
    [(SlipKind.TEN, 10), (SlipKind.THOUSAND, 1e3), (SlipKind.MILLION, 1e6)],
)
def test_a_power_of_ten_goes_up_or_down(kind: SlipKind, factor: float) -> None:
    found = times_right(build(), "oil_mass", kind)
    assert sorted(found) == [pytest.approx(1 / factor), pytest.approx(factor)]


def test_a_percentage_is_off_by_a_hundred() -> None:
    # Notes U06.
    assert times_right(build(), "percent_yield", SlipKind.PERCENT_AS_SHARE) == [
        pytest.approx(0.01)
    ]
    assert times_right(build(), "percent_yield", SlipKind.PERCENT_TWICE) == [
        pytest.approx(100)
    ]


def test_a_liquid_can_be_treated_as_a_gas() -> None:
    # Notes U07: 25.0 mL / 22.4 L/mol.
    found = wrong_values(build(), "oil_amount", SlipKind.GAS_VOLUME)
    assert pytest.approx(0.0250 / 22.4) in found


def test_an_amount_that_starts_from_an_amount_meets_no_gas() -> None:
    assert slips(build(), "soap_by_oil", SlipKind.GAS_VOLUME) == []


def test_degrees_celsius_can_stand_for_kelvin() -> None:
    # Notes U08: 27 °C used as 27, not as 300.15 K.
    warm = '[givens.warmth]\nname = "t"\ndraw = "290 .. 310 K"\n\n[readings.chalk_mass]'
    row = 'unit = "g*K"\nis = "chalk_mass * warmth"'
    graph = with_quantity("product", row, ("[readings.chalk_mass]", warm))
    drawn = {"planned_chalk": 2.0, "chalk_mass": 2.0, "acid_volume": 40.0}
    drawn |= {"dish": 35.0, "share": 0.8, "warmth": 300.15}
    found = wrong_values(graph, "product", SlipKind.CELSIUS, drawn)
    assert found == [pytest.approx(2.0 * 27.0)]
