"""Bottles that hold something else than the lab file says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import edit, make_lab
from tests.support.variant import VARIED
from workbook.errors import AuthorError
from workbook.labfile.bottle import (
    BottleTable,
    choose_bottles,
    explain_bottle,
    fill_bottles,
)
from workbook.labfile.constant import written_constants

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab


def make(of: str, value: str, section: str | None = None) -> BottleTable:
    return BottleTable.model_validate(
        {
            "lab": "olive-oil-soap",
            "section": section,
            "of": of,
            "value": value,
            "source": "label",
        }
    )


def test_a_section_s_own_bottle_comes_before_everybody_s() -> None:
    own, all_ = make("oil.density", "0.920 g/mL", "evening"), make("oil.density", "1 g")
    for bottles in ([own, all_], [all_, own]):
        assert choose_bottles(bottles, own.lab, "evening") == (own,)
        assert choose_bottles(bottles, own.lab, "morning") == (all_,)
    assert choose_bottles([own, all_], "salt", "evening") == ()


def test_a_filled_lab_has_the_value_and_its_source_and_nothing_else(lab: Lab) -> None:
    filled = fill_bottles(lab, [make("lye.mass_fraction", "19.6 %")])
    lye = filled.public.species["lye"]
    assert written_constants(lye)["mass_fraction"].text == "19.6 %"
    assert lye.solution is not None
    assert lye.solution.source == "label"
    assert written_constants(lye)["solution_density"].text == "1.219 g/mL"
    assert filled.public.species["oil"] == lab.public.species["oil"]
    assert filled.key == lab.key


@pytest.mark.parametrize(
    ("of", "value", "said"),
    [
        ("lye.strength", "20 %", "'lye.strength' is no constant of 'olive-oil-soap'"),
        ("oil.densty", "0.9 g/mL", "Did you mean 'oil.density'?"),
        ("oil.density", "0.9 g", "g measures"),
        ("lye.mass_fraction", "120 %", "more than the whole"),
    ],
)
def test_a_bottle_that_does_not_fit_is_told(
    lab: Lab, of: str, value: str, said: str
) -> None:
    with pytest.raises(AuthorError) as caught:
        fill_bottles(lab, [make(of, value)])
    assert said in str(caught.value)


def test_a_bottle_of_what_varies_is_refused(tmp_path: Path) -> None:
    solution = 'solution = { name = "it", molarity = "1.00 mol/L", source = "label" }'
    varied = edit(VARIED, ('"CH3COOH"', f'"CH3COOH"\n{solution}'))
    wrong = explain_bottle(make_lab(tmp_path, varied), make("vinegar.molarity", "1 M"))
    assert "another substance for some students" in wrong
