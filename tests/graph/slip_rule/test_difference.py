"""Differences and sums with a part left out or turned; values by hand."""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, times_right, with_quantity, wrong_values
from workbook.graph.slip import SlipKind

#: The dish weighs 40.00 g, with the soap 58.62 g.
WEIGHED = (
    (SlipKind.TARE_LEFT_ON, 58.62),
    (SlipKind.TARE_ALONE, 40.00),
    (SlipKind.TARE_ADDED, 98.62),
    (SlipKind.TARE_TWICE, -21.38),
    (SlipKind.DIFFERENCE_REVERSED, -18.62),
)

#: Turn the cylinder of the chalk lab into a burette that is read twice.
START = """\
[readings.acid_start]
name = "start"
instrument = "burette, 50 mL"
draw = "1.00 .. 2.00 mL"

[readings.dish]"""
STEP = '[[postlab]]\nkind = "reading"\nof = "dish"'
BURETTE = (
    ('instrument = "cylinder, 50 mL"', 'instrument = "burette, 50 mL"'),
    ("[readings.dish]", START),
    (STEP, f'{STEP.replace("dish", "acid_start")}\nasks = "?"\n\n{STEP}'),
)


@pytest.mark.parametrize(("kind", "grams"), WEIGHED, ids=str)
def test_a_tare_can_go_wrong(kind: SlipKind, grams: float) -> None:
    found = wrong_values(build(), "soap_mass", kind)
    assert found == [pytest.approx(grams)]


def test_ignoring_what_reacted_is_off_as_in_the_notes() -> None:
    # Notes W03: all of the base is neutralised, × 2.745.
    found = times_right(build(), "acid_amount", SlipKind.CONSUMPTION_IGNORED)
    assert found == [pytest.approx(2.745, abs=2e-3)]


def test_the_rest_can_be_taken_for_what_reacted() -> None:
    # Notes: n(NaOH) 0.1219, of which 0.0444 mol are left, so 0.0775 have reacted.
    used = wrong_values(build(), "lye_left", SlipKind.CONSUMPTION_FOR_REST)
    whole = wrong_values(build(), "lye_left", SlipKind.CONSUMPTION_IGNORED)
    assert used == [pytest.approx(0.0775, abs=5e-5)]
    assert whole == [pytest.approx(0.1219, abs=5e-5)]


def test_consumption_without_its_ratio_is_a_coefficient_left_out() -> None:
    # Notes W04: 0.1219 - 0.02583 mol.
    found = wrong_values(build(), "lye_left", SlipKind.COEFFICIENTS_LEFT_OUT)
    assert found == [pytest.approx(0.1219 - 0.02583, abs=6e-5)]


def test_a_burette_can_be_read_once_or_for_what_is_left() -> None:
    # Notes R07 and R08: the end alone, and 50 less the end.
    row = 'unit = "mL"\nof = "acid.solution"\nis = "acid_volume - acid_start"'
    graph = with_quantity("run_out", row, *BURETTE)
    drawn = {"acid_volume": 36.5, "acid_start": 1.5, "planned_chalk": 2, "share": 0.8}
    drawn |= {"chalk_mass": 2.0, "dish": 35.0}
    alone = wrong_values(graph, "run_out", SlipKind.START_IGNORED, drawn)
    left = wrong_values(graph, "run_out", SlipKind.REST_FOR_DELIVERED, drawn)
    assert pytest.approx(36.5) in alone
    assert pytest.approx(13.5) in left


def test_a_part_of_a_sum_is_left_out_or_turned() -> None:
    row = 'unit = "g"\nis = "chalk_mass + dish"'
    graph = with_quantity("both", row)
    assert len(slips(graph, "both", SlipKind.TERM_LEFT_OUT)) == 2
    assert len(slips(graph, "both", SlipKind.TERM_SIGN_TURNED)) == 2
