"""Many signs of print come down to a few, and keep their places."""

from __future__ import annotations

import pytest

from workbook.errors import UnreadError
from workbook.measure.plain import LONGEST, to_plain


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("10⁻³", "10^-3"),
        ("10^⁻³", "10^-3"),
        ("cm³", "cm^3"),
        ("\N{MINUS SIGN}3 \N{EN DASH} 4", "-3 - 4"),
        ("1\N{THIN SPACE}500\N{NO-BREAK SPACE}g", "1 500 g"),
        ("1\N{NARROW NO-BREAK SPACE}500", "1 500"),
        ("\uff11\uff13\uff0e\uff16\u3000\uff47", "13.6 g"),
        ("\u0661\u0663\u066b\u0666", "13.6"),
        ("\u0967\u0969.\u096c", "13.6"),
        ("\u338e \u33a4 \u2103", "mg cm3 °C"),
        ("2 ✕ 3 ⋅ 4 ÷ 5", "2 × 3 · 4 / 5"),
        ("5 \N{MICRO SIGN}L", "5 \N{GREEK SMALL LETTER MU}L"),
        ("20 º", "20 °"),
        ("\ufeff5\u200b g", "5 g"),
    ],
)
def test_signs_come_down_to_a_few(typed: str, text: str) -> None:
    assert to_plain(typed).text == text


def test_a_place_is_counted_in_what_was_typed() -> None:
    # The superscript became two characters, the pasted joiner none.
    plain = to_plain("\u200b10² ?")
    assert plain.unread(plain.text.index("?"), "Why?").position == 5


def test_a_fraction_sign_is_not_split_into_digits() -> None:
    assert to_plain("3½").text == "3½"


def test_a_long_text_is_refused_before_it_is_looked_at() -> None:
    with pytest.raises(UnreadError, match="100000000 characters") as caught:
        to_plain("1" * 100_000_000)
    assert len(caught.value.text) == LONGEST + 1
