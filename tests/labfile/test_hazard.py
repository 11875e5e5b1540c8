"""Hazard statements by code, with the official short texts."""

from __future__ import annotations

import pytest

from workbook.errors import MatterError
from workbook.labfile.hazard import known_statements, read_statement

# United Nations, GHS, Annex 3, official short texts, as transcribed in public copies of
# the 10th edition (read second-hand); EUH066 is in European Union law only.
OFFICIAL = {
    "H225": "Highly flammable liquid and vapour",
    "H226": "Flammable liquid and vapour",
    "H227": "Combustible liquid",
    "H290": "May be corrosive to metals",
    "H301": "Toxic if swallowed",
    "H302": "Harmful if swallowed",
    "H311": "Toxic in contact with skin",
    "H314": "Causes severe skin burns and eye damage",
    "H315": "Causes skin irritation",
    "H318": "Causes serious eye damage",
    "H319": "Causes serious eye irritation",
    "H331": "Toxic if inhaled",
    "H332": "Harmful if inhaled",
    "H335": "May cause respiratory irritation",
    "H336": "May cause drowsiness or dizziness",
    "H361d": "Suspected of damaging the unborn child",
    "H370": "Causes damage to organs",
    "EUH066": "Repeated exposure may cause skin dryness or cracking",
}


@pytest.mark.parametrize(("code", "text"), OFFICIAL.items())
def test_a_code_has_the_official_text(code: str, text: str) -> None:
    assert read_statement(code).text == text


def test_every_statement_of_the_table_is_checked_here() -> None:
    assert {each.code for each in known_statements()} == set(OFFICIAL)


def test_an_unknown_code_is_refused_with_a_close_one() -> None:
    with pytest.raises(
        MatterError, match=r"'H29O' is no hazard statement.*Did you mean 'H290'"
    ):
        read_statement("H29O")


@pytest.mark.parametrize("code", ["h314", "H 314", "H314 ", ""])
def test_a_code_is_written_exactly(code: str) -> None:
    with pytest.raises(MatterError):
        read_statement(code)
