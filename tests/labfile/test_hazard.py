"""Hazard statements by code, with the official short texts."""

from __future__ import annotations

import pytest

from workbook.errors import MatterError
from workbook.labfile.hazard import known_statements, read_statement

# United Nations, GHS, Annex 3, official short texts, as transcribed in public copies of
# the 10th edition (read second-hand); EUH066 is in European Union law only.
OFFICIAL = {
    "H220": "Extremely flammable gas",
    "H225": "Highly flammable liquid and vapour",
    "H226": "Flammable liquid and vapour",
    "H227": "Combustible liquid",
    "H270": "May cause or intensify fire; oxidizer",
    "H272": "May intensify fire; oxidizer",
    "H290": "May be corrosive to metals",
    "H301": "Toxic if swallowed",
    "H302": "Harmful if swallowed",
    "H304": "May be fatal if swallowed and enters airways",
    "H311": "Toxic in contact with skin",
    "H312": "Harmful in contact with skin",
    "H314": "Causes severe skin burns and eye damage",
    "H315": "Causes skin irritation",
    "H318": "Causes serious eye damage",
    "H319": "Causes serious eye irritation",
    "H330": "Fatal if inhaled",
    "H331": "Toxic if inhaled",
    "H332": "Harmful if inhaled",
    "H335": "May cause respiratory irritation",
    "H336": "May cause drowsiness or dizziness",
    "H361d": "Suspected of damaging the unborn child",
    "H361f": "Suspected of damaging fertility",
    "H370": "Causes damage to organs",
    "H373": "May cause damage to organs through prolonged or repeated exposure",
    "H411": "Toxic to aquatic life with long lasting effects",
    "H412": "Harmful to aquatic life with long lasting effects",
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
