"""Atomic weights: both tables, and what has none."""

from __future__ import annotations

import csv
from decimal import Decimal
from importlib import resources

import pytest

from workbook.errors import MatterError
from workbook.matter.elements import ELEMENTS, TABLES, load_weights

FILE = resources.files("workbook.matter").joinpath("elements.csv").read_text("utf-8")
ROWS = list(
    csv.DictReader(line for line in FILE.splitlines() if not line.startswith("#"))
)


def test_the_table_names_its_source_and_how_it_was_obtained() -> None:
    assert "doi:10.1515/pac-2019-0603" in FILE.splitlines()[2]
    assert "How obtained:" in FILE


def test_there_are_118_elements_in_order() -> None:
    # IUPAC has named elements 1 to 118.
    assert [int(row["number"]) for row in ROWS] == list(range(1, 119))
    assert len(ELEMENTS) == 118


def test_84_elements_have_a_standard_weight() -> None:
    # The report gives one for 80 elements with stable isotopes, and Bi, Th, Pa, U.
    assert len(load_weights("2021 abridged").weights) == 84


def test_every_weight_says_where_it_was_seen() -> None:
    assert all((row["seen"] != "") == (row["weight"] != "") for row in ROWS)


@pytest.mark.parametrize(
    ("symbol", "low", "high"),
    [("Ar", "39.792", "39.963"), ("Pb", "206.14", "207.94")],
)
def test_a_weight_lies_in_the_interval_of_the_report(
    symbol: str, low: str, high: str
) -> None:
    # Pure Appl. Chem. 94 (2022) 573, abstract, read.
    assert Decimal(low) < load_weights("2021 abridged").weight(symbol) < Decimal(high)


@pytest.mark.parametrize(
    ("symbol", "weight"),
    [
        ("H", "1.01"),
        ("He", "4.00"),
        ("Mg", "24.31"),
        ("Si", "28.09"),
        ("Fe", "55.85"),
        ("Pb", "207.2"),
    ],
)
def test_two_decimals_round_a_five_up_and_add_no_digit(
    symbol: str, weight: str
) -> None:
    # Rounded by hand from 1.0080, 4.0026, 24.305, 28.085, 55.845, 207.2.
    assert str(load_weights("two decimals").weight(symbol)) == weight


@pytest.mark.parametrize("name", TABLES)
def test_a_table_knows_its_name(name: str) -> None:
    assert load_weights(name).name == name


def test_an_unknown_table_is_refused_with_those_there_are() -> None:
    with pytest.raises(MatterError, match="'2021 abridged', 'two decimals'"):
        load_weights("1997")


def test_an_element_without_a_standard_weight_is_refused_by_name() -> None:
    with pytest.raises(MatterError, match="technetium, has no standard atomic weight"):
        load_weights("two decimals").weight("Tc")


def test_what_is_no_element_is_refused_with_the_nearest() -> None:
    with pytest.raises(MatterError, match="Did you mean 'Al'"):
        load_weights("2021 abridged").weight("al")
