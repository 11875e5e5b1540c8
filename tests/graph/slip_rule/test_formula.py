"""
Molar masses of misread formulas.

Sums by hand of CIAAW 2021 abridged weights: H 1.008, C 12.011, N 14.007, O 15.999,
Na 22.990, Al 26.982, S 32.06, K 39.098.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.support.lab import WEIGHTS
from tests.support.slip import build, slips, times_right, with_quantity
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.formula import misread_masses
from workbook.matter.formula import read_formula


def masses(formula: str, kind: SlipKind) -> set[Decimal]:
    """Return the molar masses to which one kind of misreading leads [g/mol]."""
    found = misread_masses(read_formula(formula), WEIGHTS)
    return {mass for each, mass in found if each is kind}


def test_a_lost_subscript_counts_once() -> None:
    # Na2SO4: Na once 119.05; S stands once anyway; O once 94.04 less 3 × 15.999.
    found = masses("Na2SO4", SlipKind.SUBSCRIPT_LOST)
    sodium = 2 * Decimal("22.990") + Decimal("32.06") + 4 * Decimal("15.999")
    assert found == {sodium - Decimal("22.990"), sodium - 3 * Decimal("15.999")}


def test_brackets_act_on_the_first_or_the_last_atom_only() -> None:
    # Notes M03: Al2(SO4)3 as 2 Al + S + 12 O, or as 2 Al + 3 S + 4 O.
    last = 2 * Decimal("26.982") + Decimal("32.06") + 12 * Decimal("15.999")
    first = 2 * Decimal("26.982") + 3 * Decimal("32.06") + 4 * Decimal("15.999")
    assert masses("Al2(SO4)3", SlipKind.BRACKETS_MISREAD) == {first, last}


def test_crystal_water_left_out_of_alum_is_off_as_in_the_notes() -> None:
    # Notes M04: alum × 0.544; 474.37 g/mol.
    (dry,) = masses("KAl(SO4)2·12H2O", SlipKind.CRYSTAL_WATER_LEFT_OUT)
    assert float(dry) / 474.37 == pytest.approx(0.544, abs=5e-4)


def test_crystal_water_is_multiplied_or_counted_once() -> None:
    # Notes M05: M·x, or M + 18.015; CuSO4 is 159.60.
    found = masses("CuSO4·5H2O", SlipKind.CRYSTAL_WATER_MISREAD)
    dry = Decimal("63.546") + Decimal("32.06") + 4 * Decimal("15.999")
    assert found == {5 * dry, dry + Decimal("18.015")}


def test_a_single_water_is_not_miscounted() -> None:
    assert masses("C6H8O7·H2O", SlipKind.CRYSTAL_WATER_MISREAD) == set()


def test_atomic_numbers_are_added_up() -> None:
    # Sodium has 11, oxygen 8, hydrogen 1.
    assert masses("NaOH", SlipKind.ATOMIC_NUMBERS) == {Decimal(20)}


def test_weights_are_rounded_to_whole_numbers() -> None:
    # CaCl2: 40 + 2 × 35.
    assert masses("CaCl2", SlipKind.WHOLE_ATOMIC_WEIGHTS) == {Decimal(110)}


def test_a_hydrogen_is_miscounted_in_an_organic_formula_only() -> None:
    # Benzoin C14H12O2, 212.248 g/mol.
    found = masses("C14H12O2", SlipKind.HYDROGEN_MISCOUNTED)
    assert found == {Decimal("211.240"), Decimal("213.256")}
    assert masses("NaOH", SlipKind.HYDROGEN_MISCOUNTED) == set()


def test_a_salt_is_taken_for_its_ion_or_its_acid() -> None:
    # Notes M10: sodium oleate 304.450, less 22.990, and 1.008 more.
    found = masses("C18H33NaO2", SlipKind.SALT_AND_ACID_MIXED)
    assert found == {Decimal("281.460"), Decimal("282.468")}


def test_a_coefficient_can_be_folded_into_a_molar_mass() -> None:
    # Notes M06: 3 NaOH weigh three times as much.
    kind = SlipKind.COEFFICIENT_IN_MOLAR_MASS
    shares = times_right(build(), "lye_amount", kind)
    assert any(each == pytest.approx(1 / 3) for each in shares)


def test_a_molar_mass_that_is_asked_is_not_misread() -> None:
    assert slips(build(), "theoretical_yield", SlipKind.SUBSCRIPT_LOST) == []


def test_all_that_reacts_can_be_kept_in_the_product() -> None:
    # Notes M09, M_a + M_b: chalk 100.087 + 2 × 60.052 of vinegar, for 158.166.
    row = 'unit = "g"\nis = "chalk_amount * acetate.molar_mass"'
    drawn = {"planned_chalk": 2.0, "chalk_mass": 2.0, "acid_volume": 40.0, "dish": 35.0}
    found = times_right(
        with_quantity("made", row),
        "made",
        SlipKind.LEAVING_MOLECULE_KEPT,
        drawn | {"dish_and_salt": 36.5, "share": 0.8},
    )
    assert found == [pytest.approx(220.19 / 158.166, rel=1e-4)]
