"""Relations as SymPy expressions, every coefficient a number."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
import sympy

from workbook.graph.symbol import to_symbols, write_out_ratios
from workbook.relation.reader import read_relation
from workbook.relation.tree import RATIO, Call, walk

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def test_a_ratio_becomes_its_coefficients(graph: Graph) -> None:
    # oil + 3 lye -> 3 soap + glycerol, and acid + 3 lye -> citrate + 4 water.
    n = sympy.Symbol("n")
    assert to_symbols(graph, read_relation("n * ratio(soap, oil)")) == 3 * n
    assert to_symbols(graph, read_relation("n * ratio(acid, lye)")) == n / 3


def test_names_keep_their_dots(graph: Graph) -> None:
    found = to_symbols(graph, read_relation("oil_volume * oil.density"))
    assert found == sympy.Symbol("oil_volume") * sympy.Symbol("oil.density")


def test_ratios_are_written_out_wherever_they_stand(graph: Graph) -> None:
    relation = read_relation("min(-ratio(soap, oil), (1 - ratio(lye, oil))^2)")
    written = write_out_ratios(graph, relation)
    assert not any(isinstance(n, Call) and n.name == RATIO for n in walk(written))
    assert to_symbols(graph, relation) == sympy.Min(-3, 4)


def test_a_relation_without_a_ratio_stays_as_it_is(graph: Graph) -> None:
    relation = read_relation("oil_volume * oil.density")
    assert write_out_ratios(graph, relation) == relation


def test_a_ratio_of_species_that_share_no_equation_is_refused(graph: Graph) -> None:
    with pytest.raises(LookupError, match="0 equations hold both"):
        to_symbols(graph, read_relation("ratio(soap, acid)"))
