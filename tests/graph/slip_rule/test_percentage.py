"""A part over the wrong whole; values from the notes on the trade, section 1.9."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, times_right, with_quantity, wrong_values
from workbook.graph.slip import SlipKind

#: The notes: 18.62 g of soap, at most 23.60 g of it, from 22.875 g of oil.
CASES = (
    (SlipKind.YIELD_UPSIDE_DOWN, "Y01", 126.7),
    (SlipKind.COMPARED_WITH_REAGENT, "Y02", 81.4),
    (SlipKind.MISSED_SHARE, "Y03", 21.1),
    (SlipKind.DIFFERENCE_FOR_YIELD, "Y04", 4.98),
    (SlipKind.AMOUNTS_WITHOUT_RATIO, "Y05", 3 * 78.9),
    (SlipKind.GRAMS_BY_MOLES, "Y06", 18.62 / 0.0775),
    (SlipKind.PERCENT_AS_SHARE, "U06", 0.789),
)

STEPS = """\
[quantities.first]
unit = "%"
is = "100 * chalk_mass / dish"

[quantities.second]
unit = "%"
is = "100 * dish / dish_and_salt"

[[postlab]]
kind = "number"
of = "first"
asks = "?"

[[postlab]]
kind = "number"
of = "second"
asks = "?"

[molar_mass.salt]"""


@pytest.mark.parametrize(("kind", "number", "percent"), CASES, ids=str)
def test_a_slip_of_the_notes_gives_the_value_of_the_notes(
    kind: SlipKind, number: str, percent: float
) -> None:
    found = wrong_values(build(), "percent_yield", kind)
    assert any(each == pytest.approx(percent, rel=1e-3) for each in found), number


def test_the_crude_mass_gives_a_recovery() -> None:
    # Notes Y09: pure over crude, 18.62 / 25.00 g.
    found = wrong_values(build(), "percent_yield", SlipKind.RECOVERY_FOR_YIELD)
    assert pytest.approx(74.48) in found


def test_a_missing_ratio_triples_the_yield_as_in_the_notes() -> None:
    # Notes Y05: × 3.
    found = times_right(build(), "percent_yield", SlipKind.AMOUNTS_WITHOUT_RATIO)
    assert found == [pytest.approx(3)]


def test_the_yields_of_steps_are_not_averaged_or_added() -> None:
    # 4 % and 80 %: mean 42, sum 84; chalk 2.00 g, dish 50.00 g, with salt 62.50 g.
    row = 'unit = "%"\nis = "first * second / 100"'
    graph = with_quantity("overall", row, ("[molar_mass.salt]", STEPS))
    drawn = {"chalk_mass": 2.0, "dish": 50.0, "dish_and_salt": 62.5}
    drawn |= {"planned_chalk": 2.0, "acid_volume": 40.0, "share": 0.8}
    for kind, percent in (
        (SlipKind.YIELDS_AVERAGED, 42.0),
        (SlipKind.YIELDS_ADDED, 84.0),
        (SlipKind.ONE_STEP_FOR_ALL, 80.0),
    ):
        assert pytest.approx(percent) in wrong_values(graph, "overall", kind, drawn)


def test_a_mass_is_no_percentage() -> None:
    assert slips(build(), "soap_mass", SlipKind.YIELD_UPSIDE_DOWN) == []
