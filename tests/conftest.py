"""The lab that ships with the workbook, read once for all tests."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tests.support.lab import OLIVE_OIL, WEIGHTS
from tests.support.sharing import BrowserTogether
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph
from workbook.labfile.reader import read_lab

if TYPE_CHECKING:
    from xdist.remote import Producer

    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Lab

# A deadline of Hypothesis counts the time on the wall, so that a busy machine misses it
# with an example of 3 ms. How long a text may take is tested in time of the processor.
settings.register_profile("workbook", deadline=None)
settings.load_profile("workbook")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(
    config: pytest.Config, log: Producer
) -> BrowserTogether:
    """Leave the tests of one JupyterLab to one of the sharing processes."""
    return BrowserTogether(config, log)


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
