"""The kinds of value that stand in a lab file, each from its text."""

from __future__ import annotations

from decimal import Decimal

import pytest
from pydantic_core import PydanticCustomError

from workbook.errors import RelationError, UnknownUnitError, UnreadError
from workbook.labfile.field import (
    read_amount,
    read_expression,
    read_figure,
    read_name,
    read_range,
    read_substance,
)
from workbook.measure.units import ONE, PERCENT, read_unit
from workbook.relation.tree import Name, Number, Operation


def test_an_amount_keeps_its_written_zeros() -> None:
    amount = read_amount("20.0 %")
    assert (str(amount.value), amount.unit) == ("20.0", PERCENT)


@pytest.mark.parametrize("text", ["0.911", "0.911 g/mL of oil", "0.911 ± 0.002 g/mL"])
def test_an_amount_is_a_number_with_a_unit_and_nothing_else(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="is not a number with a unit"):
        read_amount(text)


def test_an_amount_that_is_no_number_is_refused() -> None:
    with pytest.raises(UnreadError):
        read_amount("much")


@pytest.mark.parametrize(
    ("text", "low", "high", "unit", "place"),
    [
        ("11.0 .. 14.5 mL", "11.0", "14.5", "mL", -1),
        ("11..14.5mL", "11", "14.5", "mL", -1),
        ("100 .. 200 g", "100", "200", "g", 0),
        ("60 .. 95 %", "60", "95", "%", 0),
        ("-5 .. 5 °C", "-5", "5", "°C", 0),
        ("1e-3 .. 2e-3 mol", "0.001", "0.002", "mol", -3),
    ],
)
def test_a_range_has_two_bounds_a_unit_and_a_place(
    text: str, low: str, high: str, unit: str, place: int
) -> None:
    found = read_range(text)
    assert (found.low, found.high) == (Decimal(low), Decimal(high))
    assert (found.unit, found.place) == (read_unit(unit), place)


@pytest.mark.parametrize(
    ("text", "value", "unit", "place"),
    [("24.0 L/mol", "24.0", "L/mol", -1), ("4.20", "4.20", "1", -2)],
)
def test_a_figure_ranges_from_itself_to_itself(
    text: str, value: str, unit: str, place: int
) -> None:
    found = read_figure(text)
    assert (str(found.low), str(found.high), found.place) == (value, value, place)
    assert found.unit == (ONE if unit == "1" else read_unit(unit))


@pytest.mark.parametrize("text", ["4.2 ± 0.1", "24.0 L/mol of gas"])
def test_a_figure_has_nothing_beside_it(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="is not one value"):
        read_figure(text)


def test_a_range_without_a_unit_is_of_plain_numbers() -> None:
    assert read_range("0.62 .. 0.93").unit == ONE


@pytest.mark.parametrize(
    "text",
    ["11.0", "11.0 - 14.5 mL", ".. 5 g", "5 g ..", "1 .. 2 .. 3", "1 g .. 2 g", ""],
)
def test_what_is_not_two_bounds_is_no_range(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="is not a range"):
        read_range(text)


@pytest.mark.parametrize("text", ["14.5 .. 11.0 mL", "2 .. 2 g"])
def test_a_range_runs_upwards(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="runs downwards"):
        read_range(text)


def test_the_unit_of_a_range_is_known() -> None:
    with pytest.raises(UnknownUnitError, match="'mLL'"):
        read_range("11.0 .. 14.5 mLL")


@pytest.mark.parametrize(
    ("text", "unit", "place", "steps"),
    [
        ("11.0 .. 14.5 mL", "mL", -1, range(110, 146)),
        # 1.23 cm³ is 1.23 mL; whole tenths from 1.3 to 1.8.
        ("1.23 .. 1.87 cm3", "mL", -1, range(13, 19)),
        ("1 .. 2 kg", "g", 2, range(10, 21)),
        ("0.11 .. 0.14 g", "g", -1, range(2, 2)),
    ],
)
def test_steps_of_a_range_lie_between_its_bounds(
    text: str, unit: str, place: int, steps: range
) -> None:
    assert read_range(text).steps(read_unit(unit), place) == steps


@pytest.mark.parametrize("text", ["oil_volume", "E", "x2"])
def test_a_name_starts_with_a_letter(text: str) -> None:
    assert read_name(text) == text


@pytest.mark.parametrize("text", ["", "2x", "oil mass", "öl", "oil.density", "x" * 41])
def test_what_a_relation_could_not_use_is_no_name(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="is no name"):
        read_name(text)


@pytest.mark.parametrize("text", ["min", "max", "ratio", "log10", "sqrt", "concordant"])
def test_a_function_is_no_name(text: str) -> None:
    with pytest.raises(PydanticCustomError, match="is a function"):
        read_name(text)


def test_a_substance_is_a_species_or_its_solution() -> None:
    assert read_substance("lye.solution") == "lye.solution"
    with pytest.raises(PydanticCustomError, match="is no name"):
        read_substance("lye.density")


def test_an_expression_is_read_as_a_student_types_it() -> None:
    three = Operation("*", Number("3"), Name("x"))
    assert read_expression("C3H5 + 3x") == Operation("+", Name("C3H5"), three)


def test_an_expression_has_one_side() -> None:
    with pytest.raises(RelationError, match="an = has no place here") as caught:
        read_expression("oil = 3 x")
    assert caught.value.position == 4
