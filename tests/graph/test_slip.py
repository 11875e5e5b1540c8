"""The slips of a lab as a whole."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK
from tests.support.slip import REFERENCE, build, solve
from workbook.graph.compute import compute
from workbook.graph.quantity import Origin
from workbook.graph.slip import SlipKind, sentence_of, slips_of
from workbook.graph.slip_rule.probe import probe
from workbook.relation.tree import names

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.graph.slip import Slip


def all_slips(graph: Graph) -> list[tuple[str, Slip]]:
    """Return the slips of every step, each with its quantity."""
    asked = [ask.of for ask in graph.lab.public.asks if ask.of in graph.quantities]
    return [(of, slip) for of in asked if of for slip in slips_of(graph, of)]


LABS = pytest.mark.parametrize("text", [REFERENCE, CHALK], ids=["soap", "chalk"])


@LABS
def test_a_sentence_holds_no_digit(text: str) -> None:
    said = {slip.sentence for _, slip in all_slips(build(text))}
    assert said
    assert not any(re.search(r"\d", sentence) for sentence in said)


@LABS
def test_a_relation_uses_names_of_the_graph_and_not_its_own(text: str) -> None:
    graph = build(text)
    for of, slip in all_slips(graph):
        used = set(names(slip.relation))
        assert used <= graph.quantities.keys() - {of}


@LABS
def test_a_slip_uses_nothing_hidden(text: str) -> None:
    graph = build(text)
    hidden = {n for n, q in graph.quantities.items() if q.origin is Origin.HIDDEN}
    for _, slip in all_slips(graph):
        assert hidden.isdisjoint(names(slip.relation))


@LABS
def test_slips_of_one_value_share_a_sentence(text: str) -> None:
    graph = build(text)
    said: dict[tuple[str, str], set[str]] = {}
    for drawn in (1.0, 1.07):
        values = {k: v * drawn for k, v in solve(graph, MIDDLE).items()}
        for of, slip in all_slips(graph):
            value = f"{compute(graph, slip.relation, values):.9g}"
            said.setdefault((of, value), set()).add(slip.sentence)
    assert {key: each for key, each in said.items() if len(each) > 1} == {}


#: A student in the middle of both labs.
MIDDLE = {
    "oil_volume": 25.1,
    "lye_volume": 20.3,
    "dish": 37.7,
    "crude_mass": 25.3,
    "planned_oil": 23.9,
    "share": 0.81,
    "planned_chalk": 1.9,
    "chalk_mass": 2.1,
    "acid_volume": 38.9,
}


def test_the_same_slips_come_each_time() -> None:
    assert slips_of(build(), "percent_yield") is slips_of(build(), "percent_yield")


@pytest.mark.parametrize("reading", ["oil_volume", "dish_and_soap"])
def test_a_reading_has_no_slips(reading: str) -> None:
    assert slips_of(build(), reading) == ()


def test_a_mistake_without_a_relation_has_a_sentence_too() -> None:
    assert sentence_of(build(), SlipKind.CUT_OFF).startswith("The last digit")


def test_what_gives_everybody_the_right_value_is_no_slip() -> None:
    graph = build()
    students = probe(graph)
    for of, slip in all_slips(graph):
        wrong = [compute(graph, slip.relation, each) for each in students]
        right = [each[of] for each in students]
        assert wrong != pytest.approx(right, rel=1e-6), (of, slip.kind)
