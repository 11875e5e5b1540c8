"""pydantic's errors, told in sentences for an author."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from workbook.labfile.finding import say, show
from workbook.labfile.schema import LabTable, Property, SolutionTable
from workbook.labfile.table import Table


class _Course(Table):
    size: float


def told(table: type[Table], data: object) -> list[str]:
    """Return the sentences about a table."""
    with pytest.raises(ValidationError) as caught:
        table.model_validate(data)
    return [say(error, "here") for error in caught.value.errors()]


def test_a_long_value_is_cut() -> None:
    assert show("x" * 80) == "'" + "x" * 59 + "..."


def test_a_truth_is_shown_as_an_author_writes_it() -> None:
    assert show(value=False) == "false"


def test_an_error_that_has_no_sentence_of_ours_shows_what_was_found() -> None:
    (sentence,) = told(_Course, {"size": "large"})
    assert sentence.startswith("here: Input should be a valid number")
    assert sentence.endswith("Found 'large'.")


def test_a_rule_on_a_whole_table_does_not_print_the_table() -> None:
    (sentence,) = told(SolutionTable, {"name": "brine", "source": "its label"})
    assert "brine" not in sentence
    assert "exactly one of molarity, mass_fraction and mass_per_volume" in sentence


def test_a_misspelt_key_is_not_told_again_as_missing() -> None:
    data = {"titel": "x", "about": "x", "revision": 1, "cautions": []}
    (sentence,) = told(LabTable, data)
    assert sentence.endswith("Did you mean 'title'?")


def test_a_key_that_resembles_none_leaves_the_missing_one_told() -> None:
    data = {"zzz": "x", "about": "x", "revision": 1, "cautions": []}
    assert [sentence.split(";")[0] for sentence in told(LabTable, data)] == [
        "here needs the key 'title'",
        "'zzz' is not a key of this table",
    ]


def test_a_sentence_of_ours_passes_through_two_tables_unchanged() -> None:
    (sentence,) = told(Property, {"value": "0.911", "source": "x"})
    assert sentence == (
        "here: '0.911' is not a number with a unit; write it like \"0.911 g/mL\"."
    )
