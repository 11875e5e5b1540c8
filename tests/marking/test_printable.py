"""Text from a hand-in, made safe to print."""

from __future__ import annotations

import pytest

from workbook.marking.printable import to_printable


def test_a_plain_text_stays_as_it_is() -> None:
    assert to_printable("13.6 g, −5 °C, 油") == "13.6 g, −5 °C, 油"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[2J", r"\x1b[2J"),
        ("a\nb", r"a\nb"),
        ("a\u202eb", r"a\u202eb"),
        ("\udcff", r"\udcff"),
        ("\0", r"\x00"),
    ],
)
def test_what_a_terminal_acts_on_is_spelt_out(text: str, shown: str) -> None:
    assert to_printable(text) == shown


def test_a_long_text_says_how_much_was_left_out() -> None:
    assert to_printable("x" * 310) == "x" * 300 + " ... (10 more characters)"
