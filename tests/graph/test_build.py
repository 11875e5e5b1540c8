"""A lab to its graph, and what is found on the way."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit, find_mistakes, make_graph, make_lab
from workbook.graph.build import build_graph
from workbook.graph.quantity import Origin
from workbook.matter.elements import load_weights
from workbook.relation.tree import names

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.graph.quantity import Graph


def test_each_quantity_stands_after_those_that_it_follows_from(graph: Graph) -> None:
    order = list(graph.quantities)
    for name, quantity in graph.quantities.items():
        if quantity.relation is not None:
            used = names(quantity.relation)
            assert all(order.index(each) < order.index(name) for each in used)


def test_the_order_is_the_same_each_time(tmp_path: Path) -> None:
    first, second = (list(make_graph(tmp_path).quantities) for _ in range(2))
    assert first == second


@pytest.mark.parametrize(
    ("name", "origin"),
    [
        ("chalk.molar_mass", Origin.CONSTANT),
        ("acid.molarity", Origin.CONSTANT),
        ("planned_chalk", Origin.GIVEN),
        ("chalk_mass", Origin.READING),
        ("dish_and_salt", Origin.READING),
        ("share", Origin.HIDDEN),
        ("salt_mass", Origin.DERIVED),
        ("salt.molar_mass", Origin.DERIVED),
        ("M(CO3)", Origin.CONSTANT),
    ],
)
def test_a_quantity_knows_where_it_comes_from(
    tmp_path: Path, name: str, origin: Origin
) -> None:
    assert make_graph(tmp_path).quantities[name].origin is origin


def test_ranges_and_instruments_stay_with_their_quantities(tmp_path: Path) -> None:
    quantities = make_graph(tmp_path).quantities
    reading = quantities["acid_volume"]
    assert reading.instrument is not None
    assert reading.instrument.name == "cylinder, 50 mL"
    assert reading.draw is not None
    assert quantities["percent_yield"].plausible is not None
    assert quantities["dish_and_salt"].draw is None


def test_the_chosen_table_of_weights_is_used(tmp_path: Path) -> None:
    # CaCO3 with two decimals: 40.08 + 12.01 + 3 x 16.00 = 100.09 g/mol.
    two_decimals = build_graph(make_lab(tmp_path), load_weights("two decimals"))
    constant = two_decimals.quantities["chalk.molar_mass"].constant
    assert constant is not None
    assert str(constant.value) == "100.09"


def test_every_stage_is_told_at_once(tmp_path: Path) -> None:
    found = find_mistakes(
        tmp_path,
        ('"acid_volume * acid.molarity"', '"acid_volume / acid.molarity"'),
        ('"dish_and_salt - dish"', '"dish_and_salt - dish / (2 - 2)"'),
        ('salt = "x + 2 Cl"', 'salt = "x + Cl"'),
        ('"dish + share * salt_yield"', '"dish + share * salt_mass"'),
    )
    assert [mistake.at for mistake in found] == [
        'is = "dish + share * salt_mass"',
        'is = "acid_volume / acid.molarity"',
        'is = "dish_and_salt - dish / (2 - 2)"',
        'pieces = { chalk = "x + CO3", salt = "x + Cl" }',
    ]


PERCENT_OF_PLAN = """\
[quantities.percent_of_plan]
unit = "%"
is = "100 * chalk_mass / planned_chalk"

"""


def test_a_percentage_may_stand_in_another_relation(tmp_path: Path) -> None:
    head = "[quantities.planned_amount]"
    text = edit(
        CHALK,
        ('"dish_and_salt - dish"', '"percent_of_plan * planned_chalk / 100"'),
        (head, PERCENT_OF_PLAN + head),
    )
    assert "percent_of_plan" in make_graph(tmp_path, text).quantities
