"""The working that honest and mistaken students show."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

import pytest

from workbook.rehearsal.working import build_chain, derive_lines, derive_wrongly
from workbook.relation.reader import read_line, read_relation
from workbook.relation.tree import Equality
from workbook.wire.answer import Placed

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Ask


def ask_of(graph: Graph, step: str) -> Ask:
    return next(ask for ask in graph.lab.public.asks if ask.id == step)


def turned(factor: str, *, over: bool) -> Placed:
    return Placed(factor, turned=over)


@pytest.mark.parametrize(
    ("step", "relation", "chain"),
    [
        (
            "oil_mass",
            "oil_volume * oil.density",
            (turned("oil.density", over=False),),
        ),
        ("oil_mass", "oil_volume / oil.density", (turned("oil.density", over=True),)),
        ("oil_mass", "oil_volume", ()),
        (
            "soap_amount",
            "oil_amount * ratio(oil, soap)",
            (turned("ratio(soap, oil)", over=True),),
        ),
        (
            "oil_mass",
            "oil_volume * oil.density * oil.density",
            (turned("oil.density", over=False),) * 2,
        ),
    ],
)
def test_a_relation_is_said_in_factors(
    graph: Graph, step: str, relation: str, chain: tuple[Placed, ...]
) -> None:
    assert build_chain(graph, ask_of(graph, step), read_relation(relation)) == chain


@pytest.mark.parametrize(
    "relation", ["oil_volume + oil.density", "10 * oil_volume", "oil_volume * dish"]
)
def test_what_no_factor_says_has_no_chain(graph: Graph, relation: str) -> None:
    assert (
        build_chain(graph, ask_of(graph, "oil_mass"), read_relation(relation)) is None
    )


def test_honest_lines_are_equations_and_hold_in_numbers(graph: Graph) -> None:
    row = graph.lab.key.pieces["soap"]
    masses = {"oil": "885.45", "C3H5": "41.07", "Na": "22.99"}
    for seed in range(20):
        chance = random.Random(seed)  # noqa: S311 - a test hides nothing
        lines = derive_lines(row, "soap", masses.__getitem__, chance)
        assert all(isinstance(read_line(line), Equality) for line in lines)
        assert any("soap" in line for line in lines)


def test_a_mistake_is_said_in_the_letters_of_the_pad(graph: Graph) -> None:
    wrong = read_relation("oil.molar_mass / 3 + lye.molar_mass")
    lines = derive_wrongly(graph, "soap", wrong)
    assert lines == ("oil = C3H5 + 3 × x", "soap = oil / 3 + NaOH")


def test_a_mistake_beyond_molar_masses_has_no_lines(graph: Graph) -> None:
    with pytest.raises(ValueError, match="'dish' is no molar mass"):
        derive_wrongly(graph, "soap", read_relation("oil.molar_mass / dish"))
