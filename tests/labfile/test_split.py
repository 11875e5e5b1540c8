"""A lab file in two halves: what a student may learn, and the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.lab import CHALK, edit, make_lab
from workbook.measure.units import PERCENT, read_unit
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab


def test_a_lab_is_called_like_its_folder(lab: Lab) -> None:
    assert lab.public.name == "olive-oil-soap"


def test_relations_draws_and_right_answers_are_of_the_key(tmp_path: Path) -> None:
    key = make_lab(tmp_path).key
    assert key.relations["salt_mass"] == read_relation("dish_and_salt - dish")
    assert set(key.draws) == {
        "planned_chalk",
        "chalk_mass",
        "acid_volume",
        "dish",
        "share",
    }
    assert key.hidden == {"share"}
    assert key.right == {"fumes": ("hood",)}
    assert key.limiting == {
        "limiting": {"chalk": "chalk_amount", "acid": "acid_amount"}
    }
    assert key.widen["salt_yield"].text == "0.5 %"


def test_every_quantity_has_its_unit_in_the_key(tmp_path: Path) -> None:
    units = make_lab(tmp_path).key.units
    assert units["acid_volume"] == read_unit("mL")
    assert units["dish"] == read_unit("g")
    assert units["percent_yield"] == PERCENT


def test_only_what_is_shown_or_asked_is_labelled(tmp_path: Path) -> None:
    labels = make_lab(tmp_path).public.labels
    assert labels["salt_yield"].text == "salt yield"
    assert labels["salt.molar_mass"].text == "molar mass of calcium chloride"
    assert labels["acid_volume"].of == "acid.solution"
    # No step asks for the mass of salt: its name would tell of a relation.
    assert "salt_mass" not in labels
    assert "share" not in labels


def test_the_equations_of_a_lab_are_balanced(tmp_path: Path) -> None:
    text = edit(CHALK, ("chalk + 2 acid", "chalk + acid"))
    public = make_lab(tmp_path, text).public
    assert public.equations[""].coefficient("acid") == 2


def test_a_chain_starts_from_the_value_that_is_no_constant(tmp_path: Path) -> None:
    asks = {ask.id: ask for ask in make_lab(tmp_path).public.asks}
    assert asks["chalk_amount"].start == "chalk_mass"
    assert asks["salt_yield"].start is None


def test_a_limiting_reagent_is_a_choice_among_species(tmp_path: Path) -> None:
    asks = {ask.id: ask for ask in make_lab(tmp_path).public.asks}
    assert asks["limiting"].kind == "choice"
    assert asks["limiting"].options == (
        ("chalk", "calcium carbonate"),
        ("acid", "hydrogen chloride"),
    )
    assert not asks["limiting"].several


def test_a_pad_knows_where_it_starts_and_its_letters(tmp_path: Path) -> None:
    pad = make_lab(tmp_path).public.pads["salt"]
    assert (pad.start, pad.letters) == ("chalk", (("x", "molar mass of the metal"),))


def test_a_given_with_one_value_is_drawn_from_it_alone(tmp_path: Path) -> None:
    once = ('draw = "1.50 .. 2.50 g"', 'value = "12.0 g"\nsource = "invented"')
    drawn = make_lab(tmp_path, edit(CHALK, once)).key.draws["planned_chalk"]
    assert str(drawn.low) == str(drawn.high) == "12.0"
