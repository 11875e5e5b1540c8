"""The order of working out, and circles."""

from __future__ import annotations

from itertools import pairwise

import pytest

from workbook.graph.order import find_circle, order
from workbook.relation.reader import read_relation

CHAIN = {
    "yield": read_relation("amount * m"),
    "amount": read_relation("mass / m"),
    "mass": read_relation("after - before"),
}


def test_each_quantity_comes_after_those_that_it_follows_from() -> None:
    found = order(CHAIN)
    assert set(found) == {"yield", "amount", "m", "mass", "after", "before"}
    assert found.index("mass") > max(found.index("after"), found.index("before"))
    assert found.index("yield") > found.index("amount") > found.index("mass")


def test_the_order_does_not_hang_on_the_order_of_names_in_a_relation() -> None:
    turned = CHAIN | {"mass": read_relation("-before + after")}
    assert order(turned) == order(CHAIN)


def test_no_circle_is_found_where_there_is_none() -> None:
    assert find_circle(CHAIN) == ()


@pytest.mark.parametrize(
    ("relation", "circle"),
    [
        ("yield + after", {"yield", "amount", "mass"}),
        ("mass", {"mass"}),
        ("amount * 2", {"amount", "mass"}),
    ],
)
def test_a_circle_is_spelled_out_from_a_name_back_to_itself(
    relation: str, circle: set[str]
) -> None:
    relations = CHAIN | {"mass": read_relation(relation)}
    found = find_circle(relations)
    assert found[0] == found[-1]
    assert set(found) == circle
    for name, source in pairwise(found):
        assert source in repr(relations[name])


def test_the_species_of_a_ratio_are_no_quantities() -> None:
    assert order({"a": read_relation("b * ratio(a, b)")}) == ("b", "a")
