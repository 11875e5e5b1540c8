"""A relation in factors."""

from __future__ import annotations

import pytest

from workbook.graph.slip_rule.product import (
    Factor,
    factors_of,
    product_of,
    products,
)
from workbook.relation.reader import read_relation
from workbook.relation.text import to_text
from workbook.relation.tree import Name, Number


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("a / (b * c) * d", "a / b / c × d"),
        ("a / (b / c)", "a / b × c"),
        ("(a * b) ^ 2", "a^2 × b^2"),
        ("1 / a", "1 / a"),
        ("1 / a * b", "1 / a × b"),
        ("a - b", "a - b"),
    ],
)
def test_a_relation_is_put_together_from_its_factors(text: str, written: str) -> None:
    assert to_text(product_of(factors_of(read_relation(text))), str) == written


def test_no_factor_is_one() -> None:
    assert product_of((Factor(Name("a"), 0),)) == Number("1")


def test_a_factor_turns_over() -> None:
    assert Factor(Name("a"), 2).turned() == Factor(Name("a"), -2)


def test_the_terms_of_a_sum_are_products_and_its_factors_are_not() -> None:
    found = list(products(read_relation("a * (b * c - d) / e")))
    shown = [to_text(product_of(each.factors), str) for each in found]
    assert shown == ["a × (b × c - d) / e", "b × c", "d"]


def test_a_product_knows_where_it_stands() -> None:
    relation = read_relation("a - max(b * c, d)")
    for each in products(relation):
        changed = each.site.put(relation, Name("x"))
        assert "x" in to_text(changed, str)
