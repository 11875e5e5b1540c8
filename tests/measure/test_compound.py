"""Compound units are read by a small grammar, and two readings are asked about."""

from __future__ import annotations

import pytest

from workbook.errors import AmbiguousError, UnknownUnitError
from workbook.measure.compound import read_compound, scan_compound
from workbook.measure.units import read_unit

GRAM_PER_MOLE = (("g", 1), ("mol", -1))


@pytest.mark.parametrize(
    "text",
    [
        "g/mol",
        "g / mol",
        "g mol-1",
        "g mol^-1",
        "g mol^(-1)",
        "g mol**-1",
        "g mol⁻¹",
        "g·mol⁻¹",
        "g*mol^-1",
        "g.mol-1",
        "g per mol",
        "grams per mole",
        "GRAMS PER MOLE",
        "g/(mol)",
        "(g)/(mol)",
    ],
)
def test_a_molar_mass_has_many_spellings(text: str) -> None:
    assert read_unit(text).parts == GRAM_PER_MOLE


@pytest.mark.parametrize(
    ("text", "symbol"),
    [
        ("mol dm-3", "mol/dm³"),
        ("kg m^-3", "kg/m³"),
        ("J/(mol K)", "J/(mol·K)"),
        ("J mol-1 K-1", "J/(mol·K)"),
        ("J/( g °C )", "J/(g·°C)"),
        ("L atm/(mol K)", "L·atm/(mol·K)"),
        ("(m s-1)^2", "m²/s²"),
        ("1/s", "1/s"),
        ("mm Hg", "mmHg"),
        ("J K", "J·K"),
    ],
)
def test_products_powers_and_brackets_are_read(text: str, symbol: str) -> None:
    assert read_unit(text).symbol == symbol


@pytest.mark.parametrize("text", ["J/mol K", "J/mol·K", "g/mol/L", "g per mL per min"])
def test_a_second_factor_below_the_line_is_asked_about(text: str) -> None:
    with pytest.raises(AmbiguousError, match="brackets"):
        read_compound(text)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("", ""),
        ("g/", "g/"),
        ("/g", "/g"),
        ("g*", "g*"),
        ("(g", "(g"),
        ("g)", "g)"),
        ("g(", "g("),
        ("()", "()"),
        ("g2g", "g2g"),
        ("g5", "g5"),
        ("g^12", "g^12"),
        ("gmol", "gmol"),
        ("g/mo", "mo"),
        ("drops", "drops"),
        ("soap", "soap"),
    ],
)
def test_what_is_no_unit_is_refused_by_name(text: str, word: str) -> None:
    with pytest.raises(UnknownUnitError) as caught:
        read_compound(text)
    assert caught.value.text == word


def test_a_number_below_the_line_is_refused_with_the_way_out() -> None:
    with pytest.raises(UnknownUnitError, match="52 g/L"):
        read_compound("g/100 mL")


@pytest.mark.parametrize(
    ("text", "end"),
    [
        ("g soap", 1),
        ("g of soap", 1),
        ("g K", 1),
        ("g C6H12O6", 1),
        ("g C2", 1),
        ("M HCl", 1),
        ("J K^-1 here", 6),
        ("g mol-1 x", 7),
        ("g. Then", 1),
    ],
)
def test_a_unit_ends_where_other_words_begin(text: str, end: int) -> None:
    assert scan_compound(text, 0)[1] == end


def test_deep_brackets_are_read_or_refused_at_once() -> None:
    assert read_compound("(" * 39 + "g" + ")" * 39) == (("g", 1),)
    with pytest.raises(UnknownUnitError):
        read_compound("(" * 80)
