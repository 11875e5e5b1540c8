"""A lab whose structure varies: every way of it is a whole lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, find_mistakes, make_lab, read_tables
from tests.support.variant import VARIED
from workbook.labfile.half import USUAL, Variant
from workbook.labfile.position import read_toml_text
from workbook.labfile.schema import LabFile
from workbook.labfile.variant import find_place, list_variants, vary, vary_lines

if TYPE_CHECKING:
    from pathlib import Path

LOCATED = read_toml_text(VARIED, "lab.toml")
FILE = LabFile.model_validate(LOCATED.data)


def test_the_file_as_it_stands_is_the_first_variant() -> None:
    assert list_variants(FILE) == (USUAL, "oxalic")
    assert list_variants(read_tables()) == (USUAL,)
    assert vary(FILE, USUAL) is FILE


def test_a_variant_has_its_own_rows_and_the_rest_of_the_file() -> None:
    varied = vary(FILE, "oxalic")
    assert varied.species["vinegar"].name == "oxalic acid"
    assert varied.species["chalk"] is FILE.species["chalk"]
    assert "2 vinegar" not in varied.reactions["rinse"].equation


def test_a_lab_without_variants_has_none_to_vary() -> None:
    with pytest.raises(ValueError, match="'oxalic' is no variant"):
        vary(read_tables(), "oxalic")


def test_what_is_replaced_stands_where_its_replacement_does() -> None:
    place = find_place(FILE, "oxalic", ("species", "vinegar", "formula"))
    assert place == ("variants", "instead", "oxalic", "species", "vinegar", "formula")
    assert find_place(FILE, "oxalic", ("species", "chalk")) == ("species", "chalk")
    lines = vary_lines(LOCATED, "oxalic")
    assert lines.line(("species", "vinegar", "formula")) == LOCATED.line(place)
    assert lines.line(("lab", "title")) == LOCATED.line(("lab", "title"))


def test_both_ways_have_the_same_keys_and_names_of_their_own(tmp_path: Path) -> None:
    lab = make_lab(tmp_path, VARIED)
    usual, other = lab.ways.values()
    assert usual.public.species.keys() == other.public.species.keys()
    name = "acid for rinsing"
    assert usual.public.variant == Variant(name, "acetic acid")
    assert other.public.variant == Variant(name, "oxalic acid")
    assert lab.public.others["oxalic"] == other.public
    assert make_lab(tmp_path, CHALK).public.variant is None


@pytest.mark.parametrize(
    ("old", "new", "at", "says"),
    [
        (
            'formula = "CaC2O4"',
            'formula = "CaN2O4"',
            'equation = "chalk + vinegar -> acetate + water + gas"',
            "",
        ),
        (
            "[variants.instead.oxalic.species.vinegar]",
            "[variants.instead.oxalic.species.vinegr]",
            "[variants.instead.oxalic.species.vinegr]",
            "'vinegr' replaces nothing: the file has no [species.vinegr].",
        ),
        (
            'formula = "H2C2O4"',
            'name2 = "H2C2O4"',
            'name2 = "H2C2O4"',
            "",
        ),
    ],
)
def test_what_is_wrong_with_a_variant_is_told_where_it_stands(
    tmp_path: Path, old: str, new: str, at: str, says: str
) -> None:
    found = find_mistakes(tmp_path, (old, new), lab=VARIED)
    assert at in {each.at for each in found}
    assert any(each.sentence.startswith(says) for each in found)


def test_a_variant_that_replaces_nothing_is_told(tmp_path: Path) -> None:
    head, _, _ = VARIED.partition("[variants.instead.oxalic.reactions")
    (found,) = find_mistakes(tmp_path, lab=head)
    assert found.sentence == "it replaces nothing; give it a species or a reaction."


def test_what_is_wrong_with_the_file_is_told_once(tmp_path: Path) -> None:
    found = find_mistakes(tmp_path, ('formula = "CaCl2"', 'formula = "CaCl3"'))
    varied = find_mistakes(
        tmp_path, ('formula = "CaCl2"', 'formula = "CaCl3"'), lab=VARIED
    )
    assert [each.sentence for each in varied] == [each.sentence for each in found]
