"""Number, unit, spread and words are found in their order."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbook.errors import AmbiguousError, BlankError, DimensionError, UnreadError
from workbook.measure.numeral import Comma
from workbook.measure.phrase import (
    Phrase,
    find_second,
    find_start,
    read_phrase,
    read_rest,
)
from workbook.measure.plain import to_plain


def read(text: str) -> Phrase:
    """Return the phrase in a text."""
    plain = to_plain(text)
    return read_phrase(plain, find_start(plain), Comma.ASK)


@pytest.mark.parametrize("text", ["", "  ", "?", "? ?", "n/a", "N/A", "NA", "-", "..."])
def test_nothing_typed_is_no_attempt(text: str) -> None:
    with pytest.raises(BlankError):
        find_start(to_plain(text))


@pytest.mark.parametrize(
    "text", ["~13.6", "≈ 13.6", "about 13.6", "ca. 13.6", "Approx. 13.6", "= 13.6"]
)
def test_words_that_lead_in_are_passed_over(text: str) -> None:
    assert read(text).numeral.value == Decimal("13.6")


@pytest.mark.parametrize(
    "text",
    [
        "13.6 ± 0.1 g",
        "13.6 g ± 0.1 g",
        "13.6 g ± 0.1",
        "13.6 g ± 100 mg",
        "(13.6 ± 0.1) g",
        "( 13.6 +/- 0.1 ) g",
        "13.6+-0.1 g",
    ],
)
def test_a_spread_is_kept_in_the_unit_of_the_value(text: str) -> None:
    phrase = read(text)
    assert phrase.unit is not None
    assert (phrase.unit.symbol, phrase.spread) == ("g", Decimal("0.1"))


def test_a_spread_of_another_dimension_is_refused() -> None:
    with pytest.raises(DimensionError):
        read("13.6 g ± 1 %")


@pytest.mark.parametrize(
    ("text", "position"), [("13.6 ± -0.1", 7), ("(13.6 g", 6), ("13.6 ±", 6)]
)
def test_a_broken_spread_is_pointed_at(text: str, position: int) -> None:
    with pytest.raises(UnreadError) as caught:
        read(text)
    assert caught.value.position == position


def test_a_bracket_around_a_number_alone_is_no_harm() -> None:
    assert read("(13.6) g").numeral.value == Decimal("13.6")


@pytest.mark.parametrize(
    "text",
    ["25*0.915", "3/4", "3 / 4", "2+3", "2^3", "2 x 3", "(2*3)", "13²", "2*(3+4)"],
)
def test_a_calculation_is_asked_for_its_result(text: str) -> None:
    with pytest.raises(AmbiguousError, match="What is its result"):
        read(text)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("134-136", True),
        ("134 °C - 136 °C", True),
        ("134 to 136", True),
        ("-5--3", True),
        ("134", False),
        ("5 g to me", False),
    ],
)
def test_a_second_value_is_found_behind_a_dash_or_to(text: str, *, found: bool) -> None:
    second = find_second(to_plain(text), read(text).end)
    assert (second is not None) is found


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("13.6 g soap", "soap"),
        ("13.6 g of Ca(OH)2.", "of Ca(OH)2"),
        ("13.6 g CuSO4·5H2O", "CuSO4·5H2O"),
        ("0.5 M HCl", "HCl"),
        ("3 g K", "K"),
        ("20 % (m/m)", "(m/m)"),
        ("13.6 g.", ""),
        ("13.6.", ""),
    ],
)
def test_words_behind_the_unit_are_given_back(text: str, rest: str) -> None:
    plain = to_plain(text)
    assert read_rest(plain, read_phrase(plain, 0, Comma.ASK).end) == rest


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("13.6 6 g", 5),
        ("13.6 g 5", 7),
        ("13.6 g = 0.5 mol", 7),
        ("3 h 20 min", 4),
        ("13.6 g at 20 °C", 10),
        ("13.6 g (3 figures)", 8),
    ],
)
def test_a_second_number_is_not_left_aside(text: str, position: int) -> None:
    plain = to_plain(text)
    with pytest.raises(UnreadError) as caught:
        read_rest(plain, read_phrase(plain, 0, Comma.ASK).end)
    assert caught.value.position == position
