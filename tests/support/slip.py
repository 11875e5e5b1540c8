"""The reference case of the notes on the trade, and what each slip makes of it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from tests.support.lab import CHALK, edit, make_graph
from workbook.graph.compute import compute
from workbook.graph.slip import Slip, SlipKind, slips_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Graph

REFERENCE = (Path(__file__).parents[1] / "data" / "reference_soap.toml").read_text(
    "utf-8"
)

#: What the notes take: millilitres and grams, 18.62 g of soap in a dish.
DRAWN: Mapping[str, float] = {
    "oil_volume": 25.0,
    "lye_volume": 20.0,
    "dish": 40.00,
    "dish_and_soap": 58.62,
    "crude_mass": 25.00,
    "planned_oil": 24.0,
    "share": 0.789,
}


@cache
def build(text: str = REFERENCE) -> Graph:
    """Return the graph of a lab file, built once."""
    with TemporaryDirectory() as folder:
        return make_graph(Path(folder), text)


def with_quantity(name: str, row: str, *edits: tuple[str, str]) -> Graph:
    """Return the graph of the chalk lab with one quantity more, asked as a number."""
    asked = f'[[postlab]]\nkind = "number"\nof = "{name}"\nasks = "?"\n'
    text = edit(CHALK, *edits) if edits else CHALK
    return build(f"{text}\n{asked}\n[quantities.{name}]\n{row}\n")


def solve(graph: Graph, drawn: Mapping[str, float] = DRAWN) -> dict[str, float]:
    """Return every quantity in base units, worked out one after the other."""
    values: dict[str, float] = {}
    for name, quantity in graph.quantities.items():
        if quantity.constant is not None:
            values[name] = quantity.to_base(float(quantity.constant.value))
        elif name in drawn or quantity.relation is None:
            values[name] = quantity.to_base(drawn[name])
        else:
            values[name] = compute(graph, quantity.relation, values)
    return values


def slips(graph: Graph, name: str, kind: SlipKind) -> list[Slip]:
    """Return the slips of one kind."""
    return [slip for slip in slips_of(graph, name) if slip.kind is kind]


def wrong_values(
    graph: Graph, name: str, kind: SlipKind, drawn: Mapping[str, float] = DRAWN
) -> list[float]:
    """Return what the slips of one kind lead to, in the unit of the quantity."""
    values, quantity = solve(graph, drawn), graph.quantities[name]
    return [
        quantity.from_base(compute(graph, slip.relation, values))
        for slip in slips(graph, name, kind)
    ]


def times_right(
    graph: Graph, name: str, kind: SlipKind, drawn: Mapping[str, float] = DRAWN
) -> list[float]:
    """Return what the slips of one kind lead to, over the right value."""
    quantity, right = graph.quantities[name], solve(graph, drawn)[name]
    found = wrong_values(graph, name, kind, drawn)
    return [quantity.to_base(value) / right for value in found]
