"""The lab that ships with the workbook, read once for all tests."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tests.support.lab import OLIVE_OIL, WEIGHTS
from tests.support.sharing import find_turn
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph
from workbook.labfile.reader import read_lab

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Lab

# A deadline of Hypothesis counts the time on the wall, so that a busy machine misses it
# with an example of 3 ms. How long a text may take is tested in time of the processor.
settings.register_profile("workbook", deadline=None)
settings.load_profile("workbook")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the files that take longest, so that all processes end together."""
    items.sort(key=lambda item: find_turn(item.nodeid))


@pytest.fixture(scope="session")
def lab() -> Lab:
    """Return the olive-oil lab."""
    return read_lab(OLIVE_OIL)


@pytest.fixture(scope="session")
def graph(lab: Lab) -> Graph:
    """Return its graph, with the abridged atomic weights of 2021."""
    return build_graph(lab, WEIGHTS)


@pytest.fixture(scope="session")
def compiled(graph: Graph) -> CompiledGraph:
    """Return its graph, compiled."""
    return CompiledGraph(graph)
