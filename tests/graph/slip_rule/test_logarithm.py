"""Mistakes with a logarithm; values from the notes on the trade, section 1.11."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, with_quantity, wrong_values
from workbook.graph.slip import SlipKind

#: The part of one litre's mole: pH 2.00.
DRAWN = {
    "acidity": 0.0100,
    "planned_chalk": 2.0,
    "chalk_mass": 2.0,
    "acid_volume": 40.0,
    "dish": 35.0,
    "share": 0.8,
}

GIVEN = (
    '[givens.acidity]\nname = "a"\ndraw = "0.0050 .. 0.0200"\n\n[readings.chalk_mass]'
)


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (SlipKind.LOGARITHM_SIGN, -2.00),
        (SlipKind.NATURAL_LOGARITHM, 2.00 * 2.303),
        (SlipKind.LOGARITHM_LEFT_OUT, 0.0100),
        (SlipKind.OTHER_ION, 12.00),
        # E07: twice the concentration moves the pH by 0.30.
        (SlipKind.IONS_MISCOUNTED, 2.00 - 0.30),
    ],
)
def test_a_slip_of_the_notes_gives_the_value_of_the_notes(
    kind: SlipKind, value: float
) -> None:
    row = 'unit = "1"\nis = "-log10(acidity)"'
    graph = with_quantity("ph", row, ("[readings.chalk_mass]", GIVEN))
    found = wrong_values(graph, "ph", kind, DRAWN)
    assert any(each == pytest.approx(value, abs=2e-3) for each in found)


def test_a_relation_without_a_logarithm_has_none() -> None:
    assert slips(build(), "oil_mass", SlipKind.NATURAL_LOGARITHM) == []


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        # E05: 10^(pH) and pH itself, where 10^(-pH) is asked; pH 2.00.
        (SlipKind.POWER_SIGN, 100.0),
        (SlipKind.POWER_LEFT_OUT, 2.00),
        (SlipKind.NATURAL_POWER, 0.1353),
    ],
)
def test_a_logarithm_that_is_undone_wrongly(kind: SlipKind, value: float) -> None:
    row = 'unit = "1"\nis = "exp10(-acidity)"'
    graph = with_quantity("part", row, ("[readings.chalk_mass]", GIVEN))
    found = wrong_values(graph, "part", kind, {**DRAWN, "acidity": 2.00})
    assert any(each == pytest.approx(value, rel=1e-3) for each in found)
