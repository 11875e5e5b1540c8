"""Instruments: divisions of the standard, and the digit to which each is read."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbook.errors import MatterError
from workbook.labfile.instrument import Kind, find_instrument, known_instruments


# ASTM E1272-02(2012), Table 1 (read): 10 mL in 0.1 or 0.2, 25 mL in 0.2 or 0.5, 50 and
# 100 mL in 1.0 mL.
@pytest.mark.parametrize(
    ("name", "divisions"),
    [
        ("cylinder, 10 mL", {"0.1", "0.2"}),
        ("cylinder, 25 mL", {"0.2", "0.5"}),
        ("cylinder, 50 mL", {"1.0"}),
        ("cylinder, 100 mL", {"1.0"}),
    ],
)
def test_a_cylinder_is_divided_as_the_standard_says(
    name: str, divisions: set[str]
) -> None:
    assert find_instrument(name).division in set(map(Decimal, divisions))


def test_a_scale_is_read_to_a_tenth_of_its_division() -> None:
    # OpenStax, Chemistry 2e, section 1.5: marks of 1 mL, reading 21.6 mL, where any of
    # 21.5 to 21.7 is a fair estimate.
    cylinder = find_instrument("cylinder, 50 mL")
    assert cylinder.step == Decimal("0.1")
    assert cylinder.allowance == Decimal("0.1")


def test_a_display_is_copied() -> None:
    # OpenStax, Chemistry 2e, section 1.5: a balance that shows 6.72 g, to 0.01 g.
    balance = find_instrument("balance, 0.01 g")
    assert (balance.place, balance.step) == (-2, Decimal("0.01"))
    assert balance.allowance == 0
    assert balance.kind is Kind.BALANCE


@pytest.mark.parametrize("name", known_instruments())
def test_no_instrument_is_read_finer_than_a_tenth_of_its_division(name: str) -> None:
    instrument = find_instrument(name)
    assert instrument.step * 10 >= instrument.division
    assert instrument.step <= instrument.division < instrument.capacity


def test_an_unknown_instrument_is_refused_with_the_known_ones() -> None:
    with pytest.raises(MatterError) as caught:
        find_instrument("cylinder, 24 mL")
    assert "Did you mean 'cylinder, 25 mL'?" in str(caught.value)
    assert all(name in str(caught.value) for name in known_instruments())
