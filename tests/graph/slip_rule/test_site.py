"""Places in a relation."""

from __future__ import annotations

from workbook.graph.slip_rule.site import (
    Site,
    is_ratio,
    replace_node,
    sites,
    with_parts,
)
from workbook.relation.reader import read_relation
from workbook.relation.text import to_text
from workbook.relation.tree import Name, Number


def test_every_place_puts_back_what_stood_there() -> None:
    relation = read_relation("a / (b - max(c, d)) ^ 2 * ratio(e, f)")
    for node, site in sites(relation):
        assert site.put(relation, node) == relation


def test_the_species_of_a_ratio_have_no_place() -> None:
    found = [node for node, _ in sites(read_relation("a * ratio(b, c)"))]
    assert Name("b") not in found


def test_something_else_can_stand_deep_in_a_relation() -> None:
    relation = read_relation("a / (b - max(c, d))")
    (site,) = (site for node, site in sites(relation) if node == Name("d"))
    changed = site.put(relation, Number("3"))
    assert to_text(changed, str) == "a / (b - max(c, 3))"


def test_a_name_is_replaced_wherever_it_stands() -> None:
    changed = replace_node(read_relation("a + a * b"), Name("a"), Name("c"))
    assert to_text(changed, str) == "c + c × b"


def test_a_place_goes_down_part_by_part() -> None:
    assert Site().below(1).below(0) == Site((1, 0))


def test_a_leaf_has_no_parts_to_change() -> None:
    assert with_parts(Name("a"), ()) == Name("a")


def test_only_a_ratio_is_a_ratio() -> None:
    assert is_ratio(read_relation("ratio(a, b)"))
    assert not is_ratio(read_relation("max(a, b)"))
