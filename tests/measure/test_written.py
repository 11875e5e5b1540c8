"""Everything that a student may type is read, asked about, or pointed at."""

from __future__ import annotations

import time
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.errors import (
    AmbiguousError,
    BlankError,
    DimensionError,
    TextError,
    UnitError,
    UnknownUnitError,
    UnreadError,
)
from workbook.measure.rounding import write, write_power
from workbook.measure.units import ONE, PERCENT, read_unit
from workbook.measure.written import (
    Comma,
    Written,
    read_answer,
    read_ends,
    read_range,
    read_written,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

# How numbers are typed in a laboratory: common practice, no source. The decimal marks
# and the space between thousands are those of the SI Brochure, 9th edition, 5.4.4.
READ = [
    ("13.6 g", "13.6", "g"),
    ("13.6g", "13.6", "g"),
    ("13.6 grams", "13.6", "g"),
    ("13.6 gram", "13.6", "g"),
    ("13.6 GRAMS", "13.6", "g"),
    ("13,6 g", "13.6", "g"),
    ("1,5", "1.5", None),
    ("1 500 g", "1500", "g"),
    ("1 500", "1500", None),
    ("1\N{THIN SPACE}500 g", "1500", "g"),
    ("1\N{NO-BREAK SPACE}500 g", "1500", "g"),
    ("1\N{NARROW NO-BREAK SPACE}500 g", "1500", "g"),
    ("1,234.5", "1234.5", None),
    ("1.234,5", "1234.5", None),
    ("1.36 x 10^1", "13.6", None),
    ("1.36 X 10^1 g", "13.6", "g"),
    ("1.36×10¹", "13.6", None),
    ("1.36*10**1", "13.6", None),
    ("1.36e1", "13.6", None),
    ("1.36E+01", "13.6", None),
    ("1,36·10^1", "13.6", None),
    ("1.36 10^1", "13.6", None),
    ("1.362e1 g", "13.62", "g"),
    ("1.36x10^1 grams", "13.6", "g"),
    ("2.5 x 10-3", "0.0025", None),
    ("2.5x10^\N{EN DASH}3", "0.0025", None),
    ("2.5x10^\N{MINUS SIGN}3", "0.0025", None),
    ("2.5 × 10⁻³ mol·L⁻¹", "0.0025", "mol/L"),
    (".5", "0.5", None),
    ("5.", "5", None),
    ("+5", "5", None),
    ("\N{MINUS SIGN}5 °C", "-5", "°C"),
    ("78.9 %", "78.9", "%"),
    ("78.9%", "78.9", "%"),
    ("78.9 percent", "78.9", "%"),
    ("304.4 g/mol", "304.4", "g/mol"),
    ("304.4 g mol-1", "304.4", "g/mol"),
    ("304.4 g·mol⁻¹", "304.4", "g/mol"),
    ("304.4 g mol^-1", "304.4", "g/mol"),
    ("304.4 g per mol", "304.4", "g/mol"),
    ("25 mL", "25", "mL"),
    ("25 ml", "25", "mL"),
    ("25 cm3", "25", "cm³"),
    ("25 cm³", "25", "cm³"),
    ("25 cc", "25", "cc"),
    ("25 millilitres", "25", "mL"),
    ("2 L", "2", "L"),
    ("2 l", "2", "L"),
    ("2 dm3", "2", "dm³"),
    ("2 litre", "2", "L"),
    ("2 liter", "2", "L"),
    ("0.5 M", "0.5", "M"),
    ("0.5 mol/L", "0.5", "mol/L"),
    ("0.5 mol dm-3", "0.5", "mol/dm³"),
    ("0.5 molar", "0.5", "M"),
    ("0.5 m", "0.5", "m"),
    ("21 °C", "21", "°C"),
    ("21 C", "21", "°C"),
    ("21 degC", "21", "°C"),
    ("21 º C", "21", "°C"),
    ("~13.6", "13.6", None),
    ("about 13.6", "13.6", None),
    ("13.6 ± 0.1", "13.6", None),
    ("13.6 g soap", "13.6", "g"),
    ("\uff11\uff13\uff0e\uff16 \uff47", "13.6", "g"),
    ("\u0661\u0663\u066b\u0666 g", "13.6", "g"),
    ("\u0967\u0969.\u096c g", "13.6", "g"),
]


@pytest.mark.parametrize(("text", "value", "symbol"), READ)
def test_what_is_typed_in_a_lab_is_read(
    text: str, value: str, symbol: str | None
) -> None:
    written = read_written(text, comma=Comma.ASK)
    assert written.value == Decimal(value)
    assert (written.unit.symbol if written.unit else None) == symbol
    assert written.text == text


@pytest.mark.parametrize(
    ("text", "wanted", "value"),
    [
        ("25.8 mmol", "mol", "0.0258"),
        ("13600 mg", "g", "13.6"),
        ("0.0136 kg", "g", "13.6"),
        ("25 cc", "mL", "25"),
        ("2 dm3", "mL", "2000"),
        ("0.5 M", "mol/L", "0.5"),
        ("78.9", "%", "78.9"),
        ("13.6", "g", "13.6"),
    ],
)
def test_any_unit_of_the_right_dimension_answers(
    text: str, wanted: str, value: str
) -> None:
    unit = read_unit(wanted)
    answer = read_answer(text, unit, comma=Comma.ASK)
    assert answer.in_unit(unit) == Decimal(value)


def test_a_unit_left_out_is_left_to_the_caller() -> None:
    assert read_answer("13.6", read_unit("g"), comma=Comma.ASK).unit is None


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [("13.60", 4, 4), ("1360", 3, 4), ("1.36e1", 3, 3), ("5.", 1, 1), (".5", 1, 1)],
)
def test_figures_come_from_the_text(text: str, least: int, most: int) -> None:
    written = read_written(text, comma=Comma.ASK)
    assert (written.least_figures, written.figures) == (least, most)


@pytest.mark.parametrize("text", ["1,500", "5 ML", "3/4", "25*0.915", "=25*0.915"])
def test_what_has_two_readings_is_asked_about(text: str) -> None:
    with pytest.raises(AmbiguousError, match=r"\?"):
        read_written(text, comma=Comma.ASK)


def test_a_calculation_is_answered_with_what_to_type() -> None:
    with pytest.raises(AmbiguousError) as caught:
        read_written("=25*0.915", comma=Comma.ASK)
    assert str(caught.value) == (
        "'=25*0.915' is a calculation. What is its result? Type that, with the figures "
        "that it deserves and its unit."
    )


@pytest.mark.parametrize("text", ["0.789", "1", "-0.5"])
def test_a_bare_fraction_for_a_percentage_is_asked_about(text: str) -> None:
    with pytest.raises(AmbiguousError) as caught:
        read_answer(text, PERCENT, comma=Comma.ASK)
    assert all("%" in reading for reading in caught.value.readings)


def test_the_question_about_a_percentage_offers_both_readings() -> None:
    with pytest.raises(AmbiguousError, match=r"0\.789 % or as 78\.9 %"):
        read_answer("0.789", PERCENT, comma=Comma.ASK)


@pytest.mark.parametrize("text", ["0.789 %", "78.9", "1.01", "0"])
def test_a_plain_percentage_is_not_asked_about(text: str) -> None:
    assert read_answer(text, PERCENT, comma=Comma.ASK).text == text


def test_a_bare_fraction_is_no_question_where_no_percentage_is_wanted() -> None:
    assert read_answer("0.789", ONE, comma=Comma.ASK).value == Decimal("0.789")


@pytest.mark.parametrize(
    ("text", "position"),
    [("13.6 6 g", 5), ("13..6", 3), ("1.3.6", 3), ("l3.6", 0), ("O.5", 0)],
)
def test_what_is_no_number_is_pointed_at(text: str, position: int) -> None:
    with pytest.raises(UnreadError) as caught:
        read_written(text, comma=Comma.ASK)
    assert caught.value.position == position
    assert caught.value.text == text


@pytest.mark.parametrize("text", ["", " ", "?", "n/a", "N/A"])
def test_a_blank_is_no_attempt(text: str) -> None:
    with pytest.raises(BlankError):
        read_answer(text, read_unit("g"), comma=Comma.ASK)


@pytest.mark.parametrize(
    ("text", "wanted", "dimension"),
    [
        ("13.6 g", "mol", "mass"),
        ("0.5 m", "M", "length"),
        ("13.6 g mol", "g/mol", "mass times amount of substance"),
        ("78.9 %", "1", "a percentage"),
    ],
)
def test_a_wrong_dimension_is_refused(text: str, wanted: str, dimension: str) -> None:
    with pytest.raises(DimensionError) as caught:
        read_answer(text, read_unit(wanted), comma=Comma.ASK)
    assert caught.value.found_dimension == dimension


@pytest.mark.parametrize("text", ["13.6 soap", "13.6 KG", "5.2 g/100 mL", "5 drops"])
def test_a_word_where_the_unit_belongs_is_no_unit(text: str) -> None:
    with pytest.raises(UnknownUnitError):
        read_written(text, comma=Comma.ASK)


@pytest.mark.parametrize(
    "text",
    [
        "134-136 °C",
        "134\N{EN DASH}136 °C",
        "134 to 136 °C",
        "134 °C - 136 °C",
        "134 °C to 136",
    ],
)
def test_a_range_has_two_ends_in_one_unit(text: str) -> None:
    low, high = read_range(text, comma=Comma.ASK)
    assert (low.value, high.value) == (Decimal(134), Decimal(136))
    assert low.unit == high.unit == read_unit("°C")


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("134 °C", (134,)),
        ("134-136 °C", (134, 136)),
        ("136 °C to 134", (136, 134)),
    ],
)
def test_ends_stand_in_the_order_of_typing(text: str, values: tuple[int, ...]) -> None:
    ends = read_ends(text, comma=Comma.ASK)
    assert tuple(each.value for each in ends) == values
    assert {each.unit for each in ends} == {read_unit("°C")}


def test_a_range_needs_no_unit() -> None:
    low, high = read_range("134\N{EN DASH}136", comma=Comma.ASK)
    assert low.unit is high.unit is None


def test_a_range_is_no_subtraction() -> None:
    with pytest.raises(AmbiguousError, match="range from 134 to 136") as caught:
        read_written("134-136 °C", comma=Comma.ASK)
    assert caught.value.readings == ("134", "136")


@pytest.mark.parametrize("text", ["134 °C", "136-134 °C", "2000 mg - 1 g"])
def test_a_range_runs_upwards(text: str) -> None:
    with pytest.raises(UnreadError):
        read_range(text, comma=Comma.ASK)


def test_the_ends_of_a_range_measure_the_same() -> None:
    with pytest.raises(DimensionError):
        read_range("1 g - 2 mL", comma=Comma.ASK)


SIGNS = "0123456789.,+-−–×xX*·^()eE/±~%°µ⁻³²¹ \u2009gGmMlLoOKCJh½?=<'\"nai"
HOSTILE = st.one_of(st.text(max_size=100), st.text(st.sampled_from(SIGNS), max_size=80))


def say_all(read: Callable[[], Iterable[Written]]) -> list[str]:
    """Return what is said of each measurement, or of our own error."""
    try:
        return [written.say() for written in read()]
    except (TextError, UnitError) as error:
        return [str(error)]


@given(HOSTILE, st.sampled_from(Comma))
def test_only_our_own_errors_come_out(text: str, comma: Comma) -> None:
    assert all(say_all(lambda: [read_written(text, comma=comma)]))


@given(HOSTILE)
def test_only_our_own_errors_come_out_of_a_range(text: str) -> None:
    assert all(say_all(lambda: read_range(text, comma=Comma.DECIMAL)))


@pytest.mark.parametrize(
    "text",
    [
        "1" * 80,
        "1" + " 111" * 19,
        "1e" + "9" * 78,
        "(" * 80,
        "1 g" + " g" * 38,
        "1 " + "(" * 78,
        "1,111" * 16,
        "~ " * 40,
        "-" * 79 + "1",
        "1 g" + "^" * 77,
        "9" * 1_000_000,
    ],
)
def test_a_hostile_text_is_answered_at_once(text: str) -> None:
    start_s = time.process_time()
    with pytest.raises((TextError, UnitError)):
        read_answer(text, read_unit("g"), comma=Comma.ASK)
    assert time.process_time() - start_s < 0.1


DIGITS = st.integers(1, 10**12 - 1)
POWERS = st.integers(-15, 15)


@given(DIGITS, POWERS, st.sampled_from(["", "-"]))
def test_writing_and_reading_keeps_value_and_figures(
    digits: int, power: int, sign: str
) -> None:
    value = Decimal(f"{sign}{digits}E{power}")
    again = read_written(write(value), comma=Comma.ASK)
    assert again.value == value
    assert again.least_figures <= len(str(digits)) <= again.figures


@given(DIGITS, POWERS)
def test_a_power_of_ten_keeps_every_figure(digits: int, power: int) -> None:
    value = Decimal(f"{digits}E{power}")
    again = read_written(write_power(value), comma=Comma.ASK)
    assert str(again.value) == str(value)
    assert again.figures == len(str(digits))


@given(DIGITS, POWERS)
def test_what_is_said_is_read_back(digits: int, power: int) -> None:
    written = read_written(f"{digits}e{power} g", comma=Comma.ASK)
    number = written.say().partition(",")[0]
    again = read_written(number, comma=Comma.ASK)
    assert (again.value, again.unit) == (written.value, written.unit)
