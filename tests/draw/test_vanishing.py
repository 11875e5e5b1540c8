"""Steps whose answer is what they start from."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL, make_graph
from workbook.draw.vanishing import find_vanishing

if TYPE_CHECKING:
    from pathlib import Path

TEXT = (OLIVE_OIL / "lab.toml").read_text("utf-8")


def vanishing(folder: Path, text: str) -> dict[str, tuple[str | int, ...]]:
    found = find_vanishing(make_graph(folder, text))
    return {sentence.partition(" ")[0].strip("'"): place for place, sentence in found}


# Water has 0.998 g/mL at 20 °C; two of a hundred is the bound.
@pytest.mark.parametrize("density", ["0.998 g", "1.00 g", "1.02 g"])
def test_a_density_near_one_is_told_where_it_is_all_there_is(
    tmp_path: Path, density: str
) -> None:
    found = vanishing(tmp_path, TEXT.replace("0.911 g", density))
    assert set(found) == {"planned_oil_volume", "oil_mass"}
    assert found["oil_mass"][0] == "postlab"


@pytest.mark.parametrize("density", ["0.911 g", "1.03 g"])
def test_a_density_further_from_one_is_none_of_them(
    tmp_path: Path, density: str
) -> None:
    assert vanishing(tmp_path, TEXT.replace("0.911 g", density)) == {}


def test_a_ratio_of_one_is_told(tmp_path: Path) -> None:
    # One mole of oil gives one of glycerol.
    text = TEXT.replace(
        '"oil_amount * ratio(soap, oil)"', '"oil_amount * ratio(glycerol, oil)"'
    )
    assert "soap_amount" in vanishing(tmp_path, text)


def test_a_factor_of_one_beside_others_is_none_of_them(tmp_path: Path) -> None:
    # A mass over a density of 1 and a molar mass still takes a step.
    text = TEXT.replace("0.911 g", "1.00 g").replace(
        '"oil_mass / oil.molar_mass"', '"oil_volume * oil.density / oil.molar_mass"'
    )
    assert "oil_amount" not in vanishing(tmp_path, text)
