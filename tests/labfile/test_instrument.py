"""Instruments: divisions of the standard, and the digit to which each is read."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbook.errors import MatterError
from workbook.labfile.instrument import (
    Kind,
    find_instrument,
    is_fixed,
    known_instruments,
)


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


def test_a_burette_is_recorded_to_a_hundredth_of_a_millilitre() -> None:
    # Laboratory manual of the City University of New York (read): marks of 0.1 mL,
    # reading 20.18 mL. OpenStax, Chemistry 2e, section 4.5, records 35.23 mL.
    burette = find_instrument("burette, 50 mL")
    assert (burette.division, burette.place) == (Decimal("0.1"), -2)
    assert burette.reads_down


@pytest.mark.parametrize(
    ("name", "is_one"),
    [
        ("volumetric pipette, 25 mL", True),
        ("graduated pipette, 5 mL", False),
        ("cylinder, 25 mL", False),
        ("no such instrument", False),
    ],
)
def test_a_pipette_with_a_ring_has_one_volume(name: str, *, is_one: bool) -> None:
    assert is_fixed(name) == is_one


def test_each_balance_can_be_tared() -> None:
    plain = {name for name in known_instruments() if name.startswith("balance")}
    tared = {name for name in known_instruments() if find_instrument(name).is_tared}
    assert tared == {f"tared {name}" for name in plain}


@pytest.mark.parametrize("name", known_instruments())
def test_a_scale_begins_and_ends_at_a_number(name: str) -> None:
    instrument = find_instrument(name)
    if instrument.pattern is not None:
        numbered = instrument.division * instrument.pattern.numbered
        assert instrument.lowest % numbered == instrument.capacity % numbered == 0


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
