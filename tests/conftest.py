"""The lab that ships with the workbook, read once for all tests."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL, WEIGHTS
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph
from workbook.labfile.reader import read_lab

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Lab


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """
    Say which tests stay together where several processes share them.

    Those in a browser do, so that there is one JupyterLab, and nothing else slows a
    page down while it is waited for; of all others those of one file.
    """
    for item in items:
        browser = item.get_closest_marker("browser")
        together = "browser" if browser else item.nodeid.partition("::")[0]
        item.add_marker(pytest.mark.xdist_group(together))


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
