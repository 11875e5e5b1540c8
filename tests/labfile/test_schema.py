"""Tables are frozen, closed, and hold to what their own keys promise."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from tests.support.lab import read_tables
from workbook.labfile.schema import ChoiceTable, GivenTable, MolarMass, SolutionTable
from workbook.relation.tree import Name, Operation

STRENGTHS = {
    "molarity": "2.00 mol/L",
    "mass_fraction": "20.0 %",
    "mass_per_volume": "90 g/L",
}


def test_every_table_of_the_small_lab_is_read() -> None:
    file = read_tables()
    assert len(file.species) == 7
    assert len(file.prelab) + len(file.postlab) == 12
    assert file.quantities["salt_mass"].relation == Operation(
        "-", Name("dish_and_salt"), Name("dish")
    )


def test_a_table_can_not_be_changed() -> None:
    file = read_tables()
    with pytest.raises(ValidationError, match="frozen"):
        file.lab.revision = 2


@pytest.mark.parametrize("strength", STRENGTHS)
def test_a_solution_gives_one_strength(strength: str) -> None:
    table = {"name": "lye", "source": "label", "density": "1.219 g/mL"}
    bottle = SolutionTable.model_validate(table | {strength: STRENGTHS[strength]})
    assert getattr(bottle, strength).text == STRENGTHS[strength]


def test_a_solution_does_not_give_two_strengths() -> None:
    table = {"name": "lye", "source": "label", "density": "1.219 g/mL"}
    with pytest.raises(ValidationError, match="exactly one of"):
        SolutionTable.model_validate(table | STRENGTHS)


def test_several_options_may_be_right_where_several_may_be_ticked() -> None:
    table = ChoiceTable.model_validate(
        {
            "kind": "choice",
            "name": "codes",
            "asks": "Which?",
            "options": {"a": "A", "b": "B", "c": "C"},
            "right": ["a", "c"],
            "several": True,
        }
    )
    assert table.right == ("a", "c")


def test_only_the_key_of_the_file_is_known_and_not_the_name_of_its_field() -> None:
    data = {"start": "oil", "pieces": {}, "letters": {}}
    with pytest.raises(ValidationError, match="'start' is not a key of this table"):
        MolarMass.model_validate(data)


def test_a_given_may_be_the_same_for_every_student() -> None:
    table = {"name": "molar volume", "value": "24.0 L/mol", "source": "common practice"}
    span = GivenTable.model_validate(table).span
    assert (str(span.low), span.high, span.place) == ("24.0", span.low, -1)


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({}, "either draw"),
        ({"draw": "1 .. 2 g", "value": "1 g", "source": "label"}, "either draw"),
        ({"value": "1 g"}, "with its source"),
        ({"draw": "1 .. 2 g", "source": "label"}, "with its source"),
    ],
)
def test_a_given_is_drawn_or_has_its_source(keys: dict[str, str], said: str) -> None:
    with pytest.raises(ValidationError, match=said):
        GivenTable.model_validate({"name": "mass"} | keys)
