"""The uncertainties of a lab against first-order propagation by a reference library."""

from __future__ import annotations

import pytest
from uncertainties import UFloat, ufloat

from tests.support.exercise import in_unit, work_out

LAB = "aldol-without-solvent"

#: Masses of a student's report, so that 1-indanone limits [g].
TAKEN = {"aldehyde_mass": 0.26, "indanone_mass": 0.2, "dish": 25.0, "recovery": 0.6}

#: One step of the balance [g].
WEIGHING_G = 0.001

#: Of C9H10O3, C9H8O and C18H16O3, summed from the 2021 weights [g/mol].
ALDEHYDE, INDANONE, ENONE = 166.176, 132.162, 280.323


def weighed(grams: float) -> UFloat:
    return ufloat(grams, WEIGHING_G)


def test_the_difference_of_two_amounts_is_as_uncertain_as_the_library_says() -> None:
    gap = weighed(0.26) / ALDEHYDE - weighed(0.2) / INDANONE
    found = work_out(LAB, TAKEN)["gap_uncertainty"]
    found_mol = in_unit(LAB, "gap_uncertainty", found, "mol")
    assert found_mol == pytest.approx(gap.std_dev, rel=1e-4)


def test_a_yield_is_as_uncertain_as_the_library_says() -> None:
    values = work_out(LAB, TAKEN)
    pigment = weighed(values["dish_and_enone"]) - weighed(25.0)
    share = 100 * pigment / (weighed(0.2) / INDANONE * ENONE)
    assert values["percent_yield"] == pytest.approx(share.nominal_value, rel=1e-4)
    assert values["yield_uncertainty"] == pytest.approx(share.std_dev, rel=1e-4)
