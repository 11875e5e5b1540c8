"""Solutions: one strength told in three ways."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.errors import MatterError
from workbook.matter.solution import Solution

#: Sodium hydroxide, CIAAW 2021 [g/mol].
NAOH = Decimal("39.997")
STRENGTHS = st.decimals("0.001", "20", places=3)


def lye() -> Solution:
    """Return 20 % lye of 1.219 g/mL: 243.8 g in a litre."""
    return Solution.of_mass_fraction(Decimal("0.200"), Decimal("1.219"), NAOH)


def test_a_mass_fraction_and_a_density_give_a_mass_per_volume() -> None:
    # 0.200 x 1219 g, by hand.
    assert lye().mass_per_volume == Decimal("243.8")


def test_a_mass_fraction_and_a_density_give_a_molarity() -> None:
    # 243.8 g / 39.997 g/mol = 6.0955 mol, by hand.
    assert round(lye().molarity, 4) == Decimal("6.0955")


def test_a_volume_holds_mass_and_amount() -> None:
    # 10.0 mL of 243.8 g/L: 2.438 g; over 39.997 g/mol 0.060955 mol, by hand.
    assert lye().mass_in(Decimal("10.0")) == Decimal("2.438")
    assert round(lye().amount_in(Decimal("10.0")), 6) == Decimal("0.060955")


def test_a_mass_fraction_comes_back() -> None:
    assert lye().mass_fraction == Decimal("0.2")


def test_a_molarity_and_a_density_give_a_mass_fraction() -> None:
    # 1 mol/L: 39.997 g in 1040 g, by hand.
    solution = Solution.of_molarity(Decimal(1), NAOH, Decimal("1.040"))
    assert round(solution.mass_fraction, 6) == Decimal("0.038459")


def test_a_mass_fraction_without_a_density_is_refused() -> None:
    with pytest.raises(MatterError, match="needs the density"):
        _ = Solution.of_molarity(Decimal(1), NAOH).mass_fraction


def test_a_percentage_is_no_mass_fraction() -> None:
    with pytest.raises(MatterError, match=r"20.0 is above 1. Give 20.0 % as 0.200"):
        Solution.of_mass_fraction(Decimal("20.0"), Decimal("1.219"), NAOH)


def test_more_solute_than_solution_is_refused() -> None:
    with pytest.raises(MatterError, match="can't hold 1500 g of solute"):
        Solution(Decimal(1500), NAOH, Decimal("1.219"))


@pytest.mark.parametrize("value", ["0", "-1", "NaN", "sNaN", "Infinity"])
def test_a_strength_that_is_no_number_above_nothing_is_refused(value: str) -> None:
    with pytest.raises(MatterError, match=r"molarity is .* must be a number above 0"):
        Solution.of_molarity(Decimal(value), NAOH)


def test_a_density_of_nothing_is_refused() -> None:
    with pytest.raises(MatterError, match="density is 0 g/mL"):
        Solution(Decimal(1), NAOH, Decimal(0))


def test_a_volume_of_nothing_is_refused() -> None:
    with pytest.raises(MatterError, match="volume is 0 mL"):
        lye().mass_in(Decimal(0))


def test_filling_up_to_less_is_refused() -> None:
    with pytest.raises(MatterError, match="10 mL can't be filled up to 5 mL"):
        lye().dilute(Decimal(10), Decimal(5))


def test_a_diluted_solution_has_lost_its_density() -> None:
    assert lye().dilute(Decimal(10), Decimal(100)).density is None


@given(STRENGTHS, STRENGTHS)
def test_a_volume_and_its_amount_go_there_and_back(
    molarity: Decimal, amount_mol: Decimal
) -> None:
    solution = Solution.of_molarity(molarity, NAOH)
    back = solution.amount_in(solution.volume_of(amount_mol))
    assert abs(back - amount_mol) <= amount_mol * Decimal("1e-20")


@given(STRENGTHS)
def test_a_dilution_keeps_the_amount(molarity: Decimal) -> None:
    strong = Solution.of_molarity(molarity, NAOH)
    weak = strong.dilute(Decimal("12.5"), Decimal(250))
    difference = weak.amount_in(Decimal(250)) - strong.amount_in(Decimal("12.5"))
    assert abs(difference) <= Decimal("1e-20")
