"""No name and no step gives an answer away."""

from __future__ import annotations

import pytest

from tests.support.lab import LIME, edit, read_tables
from workbook.labfile.position import read_toml_text
from workbook.labfile.schema import LabFile
from workbook.labfile.telling import answers_stand_apart, names_tell_nothing

OPTIONS = 'options = { hood = "Into the hood", room = "Into the room" }'
LAST = 'asks = "What is your percent yield?"\n'


@pytest.mark.parametrize("name", ["right1", "wrong", "correct_one", "Decoy", "answer"])
def test_a_name_that_tells_is_found(name: str) -> None:
    new = f'options = {{ hood = "Into the hood", {name} = "Into the room" }}'
    ((place, sentence),) = names_tell_nothing(read_tables((OPTIONS, new)))
    assert place == ("prelab", 0, "options", name)
    assert "a student's sheet holds the names" in sentence


def test_a_row_and_its_option_under_one_name_are_found() -> None:
    text = edit(LIME, ("H318 = ", "lime = "), ('lime = ["H318"]', 'lime = ["lime"]'))
    file = LabFile.model_validate(read_toml_text(text, "lab.toml").data)
    sentences = [sentence for _, sentence in names_tell_nothing(file)]
    assert len(sentences) == 1
    assert "'lime' is also that of the row to which it belongs" in sentences[0]


def test_plain_names_tell_nothing() -> None:
    assert list(names_tell_nothing(read_tables())) == []


def test_a_quantity_that_is_a_reading_under_another_name_is_found() -> None:
    file = read_tables(('"chalk_mass / chalk.molar_mass"', '"acid_amount"'))
    ((place, sentence),) = answers_stand_apart(file)
    assert place == ("postlab", 4, "of")
    assert sentence.startswith("'chalk_amount' is 'acid_amount' under another name")


def test_two_steps_of_one_relation_are_found_at_the_second() -> None:
    file = read_tables(('"planned_chalk / chalk', '"chalk_mass / chalk'))
    ((place, sentence),) = answers_stand_apart(file)
    assert place == ("postlab", 4, "of")
    assert "has the relation of 'planned_amount'" in sentence
