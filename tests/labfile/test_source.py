"""Where figures come from: no empty source, and a list for a chemist."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.source import list_unsure, sources_name_something

DENSITY = 'at = "20 °C", source = "invented"'


@pytest.mark.parametrize("source", ["?", "todo", "TBD", "n/a", "--", "unknown"])
def test_a_source_that_names_none_is_found(source: str) -> None:
    file = read_tables((DENSITY, f'at = "20 °C", source = "{source}"'))
    ((place, sentence),) = sources_name_something(file)
    assert place == ("species", "chalk", "density", "source")
    assert sentence.startswith(f"{source!r} names no source")


def test_a_source_in_words_is_no_mistake() -> None:
    assert list(sources_name_something(read_tables())) == []


def test_a_figure_from_memory_is_listed_with_what_it_is() -> None:
    file = read_tables((DENSITY, 'source = "From memory; look it up"'))
    unsure = dict(list_unsure(file))
    assert unsure["species", "chalk", "density", "source"] == (
        "density 2.71 g/mL of calcium carbonate: From memory; look it up"
    )


def test_hazards_from_memory_are_listed_with_their_codes() -> None:
    file = read_tables(('hazards_source = "its label"', 'hazards_source="from memory"'))
    unsure = dict(list_unsure(file))
    assert unsure["species", "acid", "hazards_source"] == (
        "hazard statements of hydrogen chloride (H290): from memory"
    )


def test_a_substance_of_which_no_hazard_is_said_is_listed() -> None:
    places = [place for place, _ in list_unsure(read_tables())]
    assert ("species", "water") in places
    assert ("species", "acid") not in places


def test_a_substance_that_was_looked_up_and_has_no_hazard_is_not_listed() -> None:
    file = read_tables(('name = "water"', 'name = "water"\nhazards_source = "sheet"'))
    assert ("species", "water") not in [place for place, _ in list_unsure(file)]


def test_a_given_from_memory_is_listed() -> None:
    file = read_tables(
        ('draw = "1.50 .. 2.50 g"', 'value = "2.00 g"\nsource = "from memory"')
    )
    assert dict(list_unsure(file))["givens", "planned_chalk", "source"] == (
        "mass of chalk in your plan: from memory"
    )
