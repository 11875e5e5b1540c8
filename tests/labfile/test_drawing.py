"""Which drawings a lab has, and what is said of each."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit, make_lab
from tests.support.variant import VARIED
from workbook.labfile.drawing import MARK, list_drawings, list_schemes, list_structures

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import PublicHalf

GAS = ('name = "carbon dioxide"', 'name = "carbon dioxide"\nsmiles = "O=C=O"')
LITMUS = ("[givens.", '[species.ether]\nname = "ether"\nsmiles = "CCOCC"\n\n[givens.')


@pytest.fixture
def public(tmp_path: Path) -> PublicHalf:
    """Return the public half of the chalk lab with two structures."""
    return make_lab(tmp_path, edit(CHALK, GAS, LITMUS)).public


def test_an_equation_with_a_structure_has_a_scheme(public: PublicHalf) -> None:
    # The gas stands in the reaction and in the rinse.
    assert [each.file for each in list_schemes(public)] == [
        "scheme.svg",
        "scheme-rinse.svg",
    ]


def test_a_structure_of_no_equation_is_drawn_by_itself(public: PublicHalf) -> None:
    (drawing,) = list_structures(public)
    assert (drawing.file, drawing.title) == (
        "structure-ether.svg",
        "Structure of ether",
    )
    assert drawing.right == ()


def test_the_words_hold_the_equation_and_every_structure(public: PublicHalf) -> None:
    words = list_schemes(public)[0].words
    assert words.startswith(
        "Scheme of calcium carbonate + 2 hydrogen chloride → calcium chloride + water"
    )
    assert words.endswith("Structures: carbon dioxide, SMILES O=C=O.")


def test_a_lab_without_smiles_has_no_drawing(tmp_path: Path) -> None:
    assert list_drawings(make_lab(tmp_path).public) == ()


def test_a_file_is_of_the_drawing_that_it_was_made_from(public: PublicHalf) -> None:
    first, second, _ = list_drawings(public)
    content = f'<svg {MARK}="{first.mark}"/>'.encode()
    assert first.is_of(content)
    assert not second.is_of(content)
    assert not replace(first, title="Another").is_of(content)
    assert not first.is_of(b"\xff<svg/>")


def test_what_another_variant_has_in_place_of_a_scheme_is_drawn_too(
    tmp_path: Path,
) -> None:
    public = make_lab(tmp_path, edit(VARIED, GAS)).public
    files = [each.file for each in list_drawings(public)]
    assert files == ["scheme.svg", "scheme-rinse.svg", "scheme-rinse-oxalic.svg"]
