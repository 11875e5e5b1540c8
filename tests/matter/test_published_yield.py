"""Reactions against print: balance, ratio and molar mass; sources in the data file."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from math import prod
from pathlib import Path
from typing import Any

import pytest

from workbook.errors import EquationError
from workbook.matter.elements import load_weights
from workbook.matter.equation import Equation, balance, read_equation
from workbook.matter.formula import molar_mass, read_formula
from workbook.measure.rounding import Ties, round_figures

DATA = tomllib.loads(
    (Path(__file__).parents[1] / "data" / "published_yields.toml").read_text("utf-8")
)
WEIGHTS = load_weights("2021 abridged")

Row = dict[str, Any]


def cases(key: str) -> list[Any]:
    """Return a case for each species that a row has under a key."""
    return [
        pytest.param(row, name, Decimal(value), id=f"{row['id']}: {key} of {name}")
        for row in DATA["reaction"]
        for name, value in row.get(key, {}).items()
    ]


def rows_with(key: str) -> list[Any]:
    return [pytest.param(row, id=row["id"]) for row in DATA["reaction"] if key in row]


def mass_of(species: str) -> Decimal:
    return molar_mass(read_formula(species), WEIGHTS)


def balanced(row: Row) -> Equation:
    return balance(read_equation(row["equation"]))


def amounts(row: Row) -> dict[str, Decimal]:
    weighed = {s: Decimal(m) / mass_of(s) for s, m in row.get("start", {}).items()}
    return weighed | {s: Decimal(n) for s, n in row.get("start_mol", {}).items()}


def limiting(row: Row) -> str:
    equation, taken = balanced(row), amounts(row)
    return min(
        taken, key=lambda species: taken[species] / equation.coefficient(species)
    )


def followed(row: Row, species: str) -> Decimal:
    """Return the amount of a species that the limiting one makes or uses up."""
    first = limiting(row)
    ratio = balanced(row).ratio(species, first)
    return amounts(row)[first] * ratio.numerator / ratio.denominator


def allowed(row: Row, key: str) -> Decimal:
    return Decimal(row["allow"][key])


@pytest.mark.parametrize("row", rows_with("limits"))
def test_the_published_reagent_limits(row: Row) -> None:
    assert limiting(row) == row["limits"]


@pytest.mark.parametrize(("row", "species", "expected"), cases("amount_mol"))
def test_the_published_amount_is_taken(
    row: Row, species: str, expected: Decimal
) -> None:
    assert abs(amounts(row)[species] - expected) <= allowed(row, "amount_mol")


@pytest.mark.parametrize(("row", "species", "expected"), cases("follows_mol"))
def test_the_published_amount_follows(
    row: Row, species: str, expected: Decimal
) -> None:
    assert abs(followed(row, species) - expected) <= allowed(row, "follows_mol")


@pytest.mark.parametrize(("row", "species", "expected"), cases("follows_g"))
def test_the_published_mass_follows(row: Row, species: str, expected: Decimal) -> None:
    mass_g = followed(row, species) * mass_of(species)
    assert abs(mass_g - expected) <= allowed(row, "follows_g")


@pytest.mark.parametrize(("row", "species", "expected"), cases("left_g"))
def test_the_published_mass_is_left(row: Row, species: str, expected: Decimal) -> None:
    left_g = (amounts(row)[species] - followed(row, species)) * mass_of(species)
    assert abs(left_g - expected) <= allowed(row, "left_g")


@pytest.mark.parametrize(("row", "species", "obtained_g"), cases("obtained_g"))
def test_the_published_percentage_is_obtained(
    row: Row, species: str, obtained_g: Decimal
) -> None:
    percent = 100 * obtained_g / (followed(row, species) * mass_of(species))
    assert abs(percent - Decimal(row["percent"])) <= allowed(row, "percent")


@pytest.mark.parametrize(("row", "species", "expected"), cases("expected_g"))
def test_the_published_share_of_the_yield_is_expected(
    row: Row, species: str, expected: Decimal
) -> None:
    theoretical_g = followed(row, species) * mass_of(species)
    mass_g = theoretical_g * Decimal(row["at_percent"]) / 100
    assert abs(mass_g - expected) <= allowed(row, "expected_g")


@pytest.mark.parametrize("row", [pytest.param(r, id=r["id"]) for r in DATA["chain"]])
def test_percentages_in_a_row_round_to_the_published_one(row: Row) -> None:
    values = [Decimal(text) for text in row["percents"]]
    overall = 100 * prod(value / 100 for value in values)
    if row.get("quotient"):
        overall = 100 * values[0] / values[1]
    expected = Decimal(row["expected"])
    figures = len(expected.as_tuple().digits)
    assert round_figures(Decimal(overall), figures, Ties.EVEN) == expected


def test_the_equation_that_a_book_printed_wrong_is_refused() -> None:
    # A-24, "Introductory Chemistry", section 5.6, exercise 7: the product should be
    # phosphorous acid, H3PO3; oxygen counts 12 on the left and 16 on the right.
    with pytest.raises(EquationError, match="right side has 4 O too many"):
        balance(read_equation("P4O6 + 6 H2O -> 4 H3PO4"))
