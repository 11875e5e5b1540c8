"""A relation in terms."""

from __future__ import annotations

import pytest

from workbook.graph.slip_rule.term import Term, sum_of, sums, terms_of
from workbook.relation.reader import read_relation
from workbook.relation.text import to_text
from workbook.relation.tree import Name, Number


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("a - (b - c)", "a + c - b"),
        ("-(a - b)", "b - a"),
        ("-a - b", "-a - b"),
        ("a * b", "a × b"),
    ],
)
def test_a_relation_is_put_together_from_its_terms(text: str, written: str) -> None:
    assert to_text(sum_of(terms_of(read_relation(text))), str) == written


def test_no_term_is_nothing() -> None:
    assert sum_of(()) == Number("0")


def test_a_term_changes_its_sign() -> None:
    assert Term(Name("a")).turned() == Term(Name("a"), -1)


def test_a_sum_within_a_sum_is_part_of_it() -> None:
    found = list(sums(read_relation("a - (b + c) - d * (e - f)")))
    assert [len(each.terms) for each in found] == [4, 2]


def test_a_sum_knows_where_it_stands() -> None:
    relation = read_relation("a * (b - c)")
    (each,) = sums(relation)
    assert to_text(each.site.put(relation, Name("x")), str) == "a × x"


def test_a_product_holds_no_sum() -> None:
    assert list(sums(read_relation("a * ratio(b, c)"))) == []
