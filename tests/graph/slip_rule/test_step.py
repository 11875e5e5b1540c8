"""The step in which a mistake is made."""

from __future__ import annotations

from tests.support.lab import CHALK
from tests.support.slip import build
from workbook.graph.slip_rule.step import (
    AMOUNT,
    MASS,
    Step,
    open_unasked,
    ratio_species,
)
from workbook.relation.reader import read_relation
from workbook.relation.text import to_text


def step(name: str = "theoretical_yield") -> Step:
    """Return a step of the reference case."""
    graph = build()
    relation = graph.quantities[name].relation
    assert relation is not None
    return Step(graph, name, open_unasked(graph, relation))


def test_a_factor_has_the_role_of_its_constant() -> None:
    roles = {
        text: step().role(read_relation(text))
        for text in ("soap.molar_mass", "oil.density", "oil_mass", "ratio(soap, oil)")
    }
    assert roles == {
        "soap.molar_mass": "molar_mass",
        "oil.density": "density",
        "oil_mass": "value",
        "ratio(soap, oil)": "ratio",
    }


def test_a_quantity_belongs_to_its_species_or_that_of_its_solution() -> None:
    assert step().species("lye_volume") == "lye"
    assert step().species("oil.density") == "oil"
    assert step().species("dish") == ""


def test_what_is_asked_is_opened_and_a_reading_is_not() -> None:
    opened = step().opened("oil_mass")
    assert opened is not None
    assert to_text(opened, str) == "oil_volume × oil.density"
    assert step().opened("dish_and_soap") is None


def test_the_earlier_values_come_nearest_first() -> None:
    found = list(step().earlier(step().relation))
    assert found == [
        "soap_by_oil",
        "soap.molar_mass",
        "oil_amount",
        "oil_mass",
        "oil_volume",
    ]


def test_what_no_step_asks_for_is_worked_out_within_the_step() -> None:
    graph = build(CHALK)
    relation = open_unasked(graph, read_relation("salt_amount * 2"))
    asked = {ask.of for ask in graph.lab.public.asks}
    assert ("salt_amount" in to_text(relation, str)) is ("salt_amount" in asked)


def test_a_step_measures_what_its_unit_does() -> None:
    assert step().measures == MASS
    assert step("soap_by_oil").measures == AMOUNT


def test_only_a_chain_is_a_chain() -> None:
    assert not step().is_chain


def test_a_substance_stands_in_each_of_its_equations() -> None:
    assert len(list(step().equations_of("lye"))) == 2


def test_a_ratio_has_two_species() -> None:
    assert ratio_species(read_relation("ratio(a, b)")) == ("a", "b")
    assert ratio_species(read_relation("max(a, b)")) == ()
