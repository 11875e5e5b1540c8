"""Hazard statements by code, with the official short texts."""

from __future__ import annotations

import re

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


# Regulation (EC) No 1272/2008, Annex III, as transcribed by the European Commission's
# sampling manual for customs, H-phrases (sampling-manual-customs-taxation.ec.europa.eu,
# read in a stored copy that breaks off behind H336).
REGULATION = {
    "H201": "Explosive; mass explosion hazard",
    "H203": "Explosive; fire, blast or projection hazard",
    "H205": "May mass explode in fire",
    "H222": "Extremely flammable aerosol",
    "H224": "Extremely flammable liquid and vapour",
    "H228": "Flammable solid",
    "H240": "Heating may cause an explosion",
    "H250": "Catches fire spontaneously if exposed to air",
    "H251": "Self-heating; may catch fire",
    "H252": "Self-heating in large quantities; may catch fire",
    "H260": "In contact with water releases flammable gases which may ignite "
    "spontaneously",
    "H280": "Contains gas under pressure; may explode if heated",
    "H281": "Contains refrigerated gas; may cause cryogenic burns or injury",
    "H300": "Fatal if swallowed",
    "H310": "Fatal in contact with skin",
    "H317": "May cause an allergic skin reaction",
    "H334": "May cause allergy or asthma symptoms or breathing difficulties if inhaled",
}


@pytest.mark.parametrize(("code", "text"), (OFFICIAL | REGULATION).items())
def test_a_code_has_the_official_text(code: str, text: str) -> None:
    assert read_statement(code).text == text


def test_every_code_has_the_form_of_one_and_stands_once() -> None:
    codes = [each.code for each in known_statements()]
    one = r"H[2-4][0-9]{2}[A-Za-z]{0,2}"
    assert [
        code for code in codes if not re.fullmatch(rf"EUH0\d\d|{one}(\+{one})*", code)
    ] == []
    assert len(set(codes)) == len(codes)


def test_no_text_has_a_full_stop_at_its_end() -> None:
    assert [each for each in known_statements() if each.text.endswith(".")] == []


def test_an_unknown_code_is_refused_with_a_close_one() -> None:
    with pytest.raises(
        MatterError, match=r"'H29O' is no hazard statement.*Did you mean 'H290'"
    ):
        read_statement("H29O")


@pytest.mark.parametrize("code", ["h314", "H 314", "H314 ", ""])
def test_a_code_is_written_exactly(code: str) -> None:
    with pytest.raises(MatterError):
        read_statement(code)
