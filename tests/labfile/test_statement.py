"""A hazard statement that is written out is the official one."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.statement import statements_are_word_for_word

OPTIONS = 'options = { hood = "Into the hood", room = "Into the room" }'


def sentences(key: str, text: str) -> list[str]:
    """Return what is said of an option."""
    new = f'options = {{ hood = "Into the hood", {key} = "{text}" }}'
    file = read_tables((OPTIONS, new))
    return [sentence for _, sentence in statements_are_word_for_word(file)]


# UN GHS, Annex 3; the second spelling is that of Regulation (EC) No 1272/2008.
@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("room", "H314 Causes severe skin burns and eye damage"),
        ("H314", "Causes severe skin burns and eye damage."),
        ("H272", "H272: May intensify fire; oxidiser"),
        ("room", "H301 + H311 Toxic if swallowed or in contact with skin"),
        ("room", "H370 Causes damage to organs (eyes)"),
        ("H225", "H225"),
        ("room", "Hydrogen, which burns"),
    ],
)
def test_an_official_text_is_no_mistake(key: str, text: str) -> None:
    assert sentences(key, text) == []


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("room", "H314 Burns", "H314 stands for 'Causes severe skin burns and eye"),
        ("H225", "Flammable liquid and vapour", "H225 stands for 'Highly flammable"),
        ("H302", "H301 Toxic if swallowed", "the option 'H302' speaks of H301"),
        ("room", "H299 Bites", "'H299' is no hazard statement"),
        ("room", "H225 Highly flammable liquid", "H225 stands for 'Highly flammable"),
    ],
)
def test_another_text_is_found(key: str, text: str, said: str) -> None:
    (sentence,) = sentences(key, text)
    assert sentence.startswith(said)


def test_a_finding_points_to_the_option() -> None:
    file = read_tables((OPTIONS, 'options = { hood = "H225 Burns", b = "No" }'))
    ((place, _),) = statements_are_word_for_word(file)
    assert place == ("prelab", 0, "options", "hood")
