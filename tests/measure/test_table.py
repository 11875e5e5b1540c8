"""The table of units holds together."""

from __future__ import annotations

import re

import pytest

from workbook.measure.table import ASKED, ROWS, SYMBOLS, WORDS, find_symbol
from workbook.measure.units import read_unit


@pytest.mark.parametrize("spelling", sorted({*SYMBOLS, *WORDS}))
def test_every_spelling_reads_as_its_unit(spelling: str) -> None:
    symbol = SYMBOLS.get(spelling) or WORDS[spelling]
    assert read_unit(spelling).parts == ((symbol, 1),)


@pytest.mark.parametrize("word", sorted(WORDS))
def test_words_are_read_in_capitals_too(word: str) -> None:
    assert find_symbol(word.upper()) == WORDS[word]


def test_a_symbol_is_not_read_in_other_capitals() -> None:
    assert find_symbol("Kg") is None


def test_every_printed_symbol_is_read_back() -> None:
    assert all(read_unit(symbol).symbol == symbol for symbol in ROWS)


def test_no_spelling_is_both_known_and_asked_about() -> None:
    assert not {*ASKED} & {*SYMBOLS, *WORDS}


def test_no_spelling_ends_like_a_power() -> None:
    assert not [each for each in {*SYMBOLS, *WORDS} if re.search(r"[\d^*/()]", each)]
