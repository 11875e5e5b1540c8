"""A numeral is read to the digit, and a wrong character is pointed at."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbook.errors import AmbiguousError, UnreadError
from workbook.measure.numeral import Comma, Numeral, read_numeral
from workbook.measure.plain import to_plain


def read(text: str, comma: Comma = Comma.ASK) -> Numeral:
    """Return the numeral at the start of a text."""
    return read_numeral(to_plain(text), 0, comma)


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        # Chemistry 2e (OpenStax), section 1.5, end of chapter: count the figures.
        ("53 cm", 2),
        ("2.05 × 10^8 m", 3),
        ("86,002 J", 5),
        ("9.740 × 10^4 m/s", 4),
        ("10.0613 m^3", 6),
        ("0.17 g/mL", 2),
        ("0.88400 s", 5),
    ],
)
def test_figures_are_counted_as_the_textbook_does(text: str, figures: int) -> None:
    numeral = read(text, Comma.THOUSANDS)
    assert (numeral.figures, numeral.least_figures) == (figures, figures)


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        # Chemistry 2e, 1.5, takes 1300 g for two figures, Essential Skills 1 of General
        # Chemistry (Saylor) for four, and ASTM E29 leaves 140 000 anywhere from 2 to 6.
        ("1,300", 2, 4),
        ("140 000", 2, 6),
        # By hand, from the same rules: a point or a power of ten settles the zeros.
        ("1300.", 4, 4),
        ("1300,", 2, 4),
        ("1.300e3", 4, 4),
        ("13e2", 2, 2),
        ("0.00", 1, 1),
        ("0", 1, 1),
        ("007", 1, 1),
    ],
)
def test_trailing_zeros_of_a_whole_number_may_count(
    text: str, least: int, most: int
) -> None:
    numeral = read(text, Comma.THOUSANDS)
    assert (numeral.least_figures, numeral.figures) == (least, most)


@pytest.mark.parametrize(
    ("text", "place"),
    [("13.60", -2), ("1360", 0), ("1.36e3", 1), ("1.36e-3", -5), ("5.", 0)],
)
def test_the_place_is_that_of_the_last_written_digit(text: str, place: int) -> None:
    assert read(text).place == place


@pytest.mark.parametrize(
    ("comma", "value"), [(Comma.DECIMAL, "1.500"), (Comma.THOUSANDS, "1500")]
)
def test_a_course_can_settle_the_comma(comma: Comma, value: str) -> None:
    assert str(read("1,500", comma).value) == value


@pytest.mark.parametrize("text", ["1,500", "12,500 g", "-1,500", "1,500 x 10^3"])
def test_a_comma_before_three_digits_is_asked_about(text: str) -> None:
    with pytest.raises(AmbiguousError, match="without the comma") as caught:
        read(text)
    assert len(caught.value.readings) == 2


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0,500", "0.500"),
        (",500", "0.500"),
        ("1,5000", "1.5000"),
        ("1234,567", "1234.567"),
        ("1 234,567", "1234.567"),
        ("1,500,000", "1500000"),
        ("1,234,567.8", "1234567.8"),
        ("1.234.567,8", "1234567.8"),
        ("43 279.168 29", "43279.16829"),
    ],
)
def test_one_reading_is_enough(text: str, value: str) -> None:
    # The last is an example of the SI Brochure, 9th edition (2019), section 5.4.4.
    assert str(read(text).value) == value


@pytest.mark.parametrize(
    "text",
    [
        "1.36 x 10^1",
        "1.36X10^1",
        "1.36 × 10^(1)",
        "1.36 * 10 ^ {+1}",
        "1.36*10**1",
        "1.36·10¹",
        "1.36 ⋅ 10^⁺¹",
        "1.36 10^1",
        "1.36 10¹",
        "1.36 x 10+1",
        "1.36e1",
        "1.36E+01",
        "1.36 E 1",
    ],
)
def test_a_power_of_ten_has_many_spellings(text: str) -> None:
    numeral = read(text)
    assert numeral.value == Decimal("13.6")
    assert (numeral.figures, numeral.end) == (3, len(to_plain(text).text))


def test_a_power_of_ten_can_stand_alone() -> None:
    assert read("10⁻³ mol").value == Decimal("0.001")


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("13..6", 3),
        ("1.3.6", 3),
        ("0,001,5", 5),
        ("12,34.5", 5),
        ("1.5,3", 3),
        ("1'500", 1),
        ("1½", 1),
        ("½", 0),
        ("1e5.5", 3),
        ("10^1.5", 4),
        ("l3.6", 0),
        ("-l3.6", 1),
        ("O.5", 0),
        ("1O.5", 1),
        ("13.l6", 3),
        ("2I", 1),
        ("5o g", 1),
        ("soap", 0),
        (".", 0),
        ("-", 1),
        ("₂", 0),
        ("nan", 0),
        ("inf", 0),
    ],
)
def test_the_wrong_character_is_pointed_at(text: str, position: int) -> None:
    with pytest.raises(UnreadError) as caught:
        read(text)
    assert caught.value.position == position


def test_a_letter_that_looks_like_a_digit_is_named() -> None:
    with pytest.raises(UnreadError, match="letter l stands where the digit 1"):
        read("l3.6")
    with pytest.raises(UnreadError, match="letter O stands where the digit 0"):
        read("O.5")


@pytest.mark.parametrize("text", ["25l", "25 l", "2.5l soap"])
def test_a_litre_is_no_mistyped_digit(text: str) -> None:
    assert read(text).end < len(text)


@pytest.mark.parametrize("text", ["1e61", "1e-61", f"1e{9:0>70}9", "1 x 10^9999999"])
def test_a_power_beyond_measure_is_refused(text: str) -> None:
    with pytest.raises(UnreadError, match="beyond anything measured"):
        read(text)


def test_more_digits_than_any_instrument_shows_are_refused() -> None:
    with pytest.raises(UnreadError, match="41 digits"):
        read("1" * 41)
