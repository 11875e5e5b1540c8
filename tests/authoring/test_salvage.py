"""Mistakes of form hide no other mistake, and make none up."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from pydantic import ValidationError

from tests.support.lab import CHALK, edit
from workbook.authoring.salvage import find_further
from workbook.labfile.position import read_toml_text
from workbook.labfile.schema import LabFile

if TYPE_CHECKING:
    from workbook.labfile.finding import Finding

UNIT = ('"2.71 g/mL"', '"2.71"')
BALANCE = ("chalk + 2 vinegar", "chalk + 3 vinegar")
DIMENSION = ('"acid_volume * acid.molarity"', '"acid_volume / acid.molarity"')


def further(*edits: tuple[str, str]) -> list[Finding]:
    """Return what is found beside the mistakes of form."""
    located = read_toml_text(edit(CHALK, *edits), "lab.toml")
    with pytest.raises(ValidationError) as caught:
        LabFile.model_validate(located.data)
    return list(find_further(located, caught.value))


def test_a_mistake_of_form_alone_has_nothing_beside_it() -> None:
    # The chalk is left out, and nothing is told of equations in which it stands.
    assert further(UNIT) == []


def test_what_stands_beside_a_mistake_of_form_is_told() -> None:
    form = ('draw = "0.70 .. 0.95"', 'draw = "0.95 .. 0.70"')
    assert [place for place, _ in further(form, DIMENSION)] == [
        ("quantities", "acid_amount", "is")
    ]


def test_without_its_first_table_a_file_is_not_looked_into() -> None:
    assert further(("revision", "revison"), DIMENSION) == []


def test_an_equation_of_what_can_be_read_is_balanced() -> None:
    wrong = ('formula = "HCl"\n', 'formula = "HCl"\ncolour = "none"\n')
    assert [place for place, _ in further(wrong, BALANCE)] == [
        ("reactions", "rinse", "equation")
    ]


def test_a_step_with_a_mistake_of_form_hides_no_relation() -> None:
    step = ('kind = "limiting"', 'kind = "limitting"')
    assert [place for place, _ in further(step, DIMENSION)] == [
        ("quantities", "acid_amount", "is")
    ]


def test_a_table_that_should_not_be_there_hides_nothing() -> None:
    strange = ("[species.gas]", "[specie.gas]\nx = 1\n[species.gas]")
    assert [place for place, _ in further(strange, DIMENSION)] == [
        ("quantities", "acid_amount", "is")
    ]
