"""The strength of a solution misread; shares from the notes on the trade."""

from __future__ import annotations

import pytest

from tests.support.slip import (
    REFERENCE,
    build,
    times_right,
    with_quantity,
    wrong_values,
)
from workbook.graph.slip import SlipKind

CHALK_DRAWN = {
    "planned_chalk": 2.0,
    "chalk_mass": 2.0,
    "acid_volume": 40.0,
    "dish": 35.0,
    "dish_and_salt": 36.5,
    "share": 0.8,
}


@pytest.mark.parametrize(
    ("kind", "share"),
    # Notes S02 and S06: P·V/1000 is × 3.28; the percentage not divided is × 100.
    [(SlipKind.PERCENT_AS_MOLARITY, 3.28), (SlipKind.PERCENT_NOT_DIVIDED, 100)],
)
def test_a_misread_percentage_is_off_as_in_the_notes(
    kind: SlipKind, share: float
) -> None:
    found = times_right(build(), "lye_amount", kind)
    assert found == [pytest.approx(share, rel=1e-3)]


def test_a_concentration_can_be_given_for_an_amount() -> None:
    # Notes S09: 2.00 mol/L reported as 2.00 mol.
    graph = with_quantity("acid_used", 'unit = "mol"\nis = "acid_volume*acid.molarity"')
    kind = SlipKind.CONCENTRATION_FOR_AMOUNT
    assert wrong_values(graph, "acid_used", kind, CHALK_DRAWN) == [pytest.approx(2.00)]


def test_a_concentration_upside_down_divides_litres_by_it() -> None:
    # By hand: 0.0400 L / 2.00 mol/L = 0.0200.
    graph = with_quantity("acid_used", 'unit = "mol"\nis = "acid_volume*acid.molarity"')
    kind = SlipKind.CONCENTRATION_UPSIDE_DOWN
    found = wrong_values(graph, "acid_used", kind, CHALK_DRAWN)
    assert found == [pytest.approx(0.0200)]


def test_a_forgotten_concentration_leaves_litres() -> None:
    graph = with_quantity("acid_used", 'unit = "mol"\nis = "acid_volume*acid.molarity"')
    kind = SlipKind.CONCENTRATION_LEFT_OUT
    found = wrong_values(graph, "acid_used", kind, CHALK_DRAWN)
    assert found == [pytest.approx(0.0400)]


def test_an_amount_can_be_given_for_a_concentration() -> None:
    # 2.00 g of chalk are 2.00 / 100.086 = 0.01998 mol, given as mol/L.
    row = 'unit = "mol/L"\nis = "chalk_amount / acid_volume"'
    graph = with_quantity("strength", row)
    kind = SlipKind.AMOUNT_FOR_CONCENTRATION
    found = wrong_values(graph, "strength", kind, CHALK_DRAWN)
    assert found == [pytest.approx(0.01998, rel=1e-3)]


def test_grams_in_a_volume_can_be_taken_for_a_share_of_the_mass() -> None:
    # Notes S07: the density comes in once too often.
    bottle = 'mass_fraction = "20.0 %"'
    graph = build(
        REFERENCE.replace(bottle, 'mass_per_volume = "244 g/L"').replace(
            "lye.solution_density * lye.mass_fraction", "lye.mass_per_volume"
        )
    )
    found = times_right(graph, "lye_amount", SlipKind.MASS_PER_VOLUME_AS_SHARE)
    assert found == [pytest.approx(1.219)]


#: 10.0 mL of the acid of 2.00 mol/L are brought to 50.0 mL.
DILUTED = (
    (
        "[species.salt]",
        """[givens.stock]
name = "volume of the stock"
of = "acid.solution"
draw = "9.0 .. 11.0 mL"

[givens.flask]
name = "volume of water"
of = "water"
draw = "35.0 .. 45.0 mL"

[quantities.diluted]
unit = "mol/L"
is = "acid.molarity * stock / (stock + flask)"

[[postlab]]
kind = "number"
of = "diluted"
asks = "?"

[species.salt]""",
    ),
)
DILUTION_DRAWN = CHALK_DRAWN | {"stock": 10.0, "flask": 40.0}


def test_a_concentration_can_be_that_before_the_dilution() -> None:
    # Notes S08: c_stock · V = 2.00 mol/L × 40.0 mL.
    text = 'unit = "mol"\nis = "diluted * acid_volume"\n'
    graph = with_quantity("acid_used", text, *DILUTED)
    found = wrong_values(
        graph, "acid_used", SlipKind.STOCK_CONCENTRATION, DILUTION_DRAWN
    )
    assert found == [pytest.approx(0.0800)]


def test_water_can_be_counted_in() -> None:
    # Notes S11: c · (V + V_water) = 2.00 mol/L × (10.0 + 40.0) mL.
    row = 'unit = "mol"\nis = "stock * acid.molarity"\n'
    graph = with_quantity("acid_used", row, *DILUTED)
    found = wrong_values(graph, "acid_used", SlipKind.WATER_COUNTED_IN, DILUTION_DRAWN)
    assert found == [pytest.approx(0.100)]
