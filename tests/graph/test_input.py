"""What quantities follow from, one step back and all the way."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.graph.input import behind, inputs_of

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def test_the_inputs_are_the_names_of_the_relation(graph: Graph) -> None:
    """By the lab file: oil_mass = oil_volume * oil.density."""
    assert inputs_of(graph, "oil_mass") == ("oil_volume", "oil.density")


@pytest.mark.parametrize("name", ["oil_volume", "oil.density"])
def test_what_is_drawn_or_constant_has_no_inputs(graph: Graph, name: str) -> None:
    assert inputs_of(graph, name) == ()


def test_each_comes_after_what_it_follows_from_and_the_quantity_last(
    graph: Graph,
) -> None:
    found = behind(graph, "oil_amount")
    assert set(found) == {
        "oil_volume",
        "oil.density",
        "oil_mass",
        "oil.molar_mass",
        "oil_amount",
    }
    assert found.index("oil_mass") > found.index("oil_volume")
    assert found[-1] == "oil_amount"


def test_behind_a_reading_lies_nothing_that_a_student_works_from(graph: Graph) -> None:
    """By the lab file, dish_and_soap is worked out from what is hidden."""
    assert "recovery" in inputs_of(graph, "dish_and_soap")
    assert behind(graph, "dish_and_soap") == ("dish_and_soap",)
