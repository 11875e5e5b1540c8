"""A class that nobody belongs to: always the same, and spread over every range."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from workbook.draw.probe import PROBES, probe_class

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def test_the_class_is_the_same_each_time(graph: Graph) -> None:
    first, second = probe_class(graph), probe_class(graph)
    assert all(np.array_equal(first[name], second[name]) for name in first)


# Ranges of the lab file.
@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("oil_volume", 11.0, 14.5), ("lye_volume", 10.0, 13.0), ("recovery", 0.62, 0.93)],
)
def test_each_tenth_of_a_range_has_its_share(
    graph: Graph, name: str, low: float, high: float
) -> None:
    counts, _ = np.histogram(probe_class(graph)[name], bins=10, range=(low, high))
    assert counts.sum() == PROBES
    assert counts.min() > PROBES / 40


def test_no_two_quantities_move_together(graph: Graph) -> None:
    values = probe_class(graph)
    names = ("oil_volume", "lye_volume", "dish", "recovery", "planned_oil")
    together = np.corrcoef([values[name] for name in names])
    assert np.abs(together - np.eye(len(names))).max() < 0.2


def test_what_follows_is_worked_out(graph: Graph) -> None:
    values = probe_class(graph)
    np.testing.assert_allclose(values["oil_mass"], values["oil_volume"] * 0.911)
