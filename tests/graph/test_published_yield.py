"""Reactions in print, from a lab file through the graph to values."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tests.support.lab import make_graph
from tests.support.published import ROWS, Row, names_of, write_lab
from workbook.graph.compile import CompiledGraph
from workbook.matter.equation import read_equation

DATA = Path(__file__).parents[1] / "data"

#: Several products of one amount are no limiting reagent: the data file splits them.
SOLVED = [row for row in ROWS if len(row.get("obtained_g", {})) < 2]


def cases(key: str) -> list[Any]:
    """Return a case for each species that a row has under a key."""
    return [
        pytest.param(row, formula, float(value), id=f"{row['id']}: {key} of {formula}")
        for row in SOLVED
        for formula, value in row.get(key, {}).items()
    ]


def solve(folder: Path, row: Row, wanted: str) -> float:
    """Write the lab of a row, and solve it for the masses in print."""
    names = names_of(read_equation(row["equation"]))
    weighed = row["start"] | row.get("obtained_g", {})
    drawn = {f"mass_{names[f]}": np.array([float(m)]) for f, m in weighed.items()}
    graph = make_graph(folder, write_lab(row))
    return float(CompiledGraph(graph).solve(drawn)[wanted][0])


def name_in(row: Row, formula: str) -> str:
    return names_of(read_equation(row["equation"]))[formula]


@pytest.mark.parametrize(("row", "formula", "expected"), cases("amount_mol"))
def test_the_published_amount_is_taken(
    tmp_path: Path, row: Row, formula: str, expected: float
) -> None:
    found = solve(tmp_path, row, f"amount_{name_in(row, formula)}")
    assert found == pytest.approx(expected, abs=float(row["allow"]["amount_mol"]))


@pytest.mark.parametrize(("row", "formula", "expected"), cases("follows_g"))
def test_the_published_mass_follows(
    tmp_path: Path, row: Row, formula: str, expected: float
) -> None:
    found = solve(tmp_path, row, f"follows_{name_in(row, formula)}")
    assert found == pytest.approx(expected, abs=float(row["allow"]["follows_g"]))


@pytest.mark.parametrize(("row", "formula", "expected"), cases("left_g"))
def test_the_published_mass_is_left(
    tmp_path: Path, row: Row, formula: str, expected: float
) -> None:
    found = solve(tmp_path, row, f"left_{name_in(row, formula)}")
    assert found == pytest.approx(expected, abs=float(row["allow"]["left_g"]))


@pytest.mark.parametrize(
    "row", [pytest.param(row, id=row["id"]) for row in SOLVED if "percent" in row]
)
def test_the_published_percentage_is_obtained(tmp_path: Path, row: Row) -> None:
    found = solve(tmp_path, row, "percent")
    allow = float(row["allow"]["percent"])
    assert found == pytest.approx(float(row["percent"]), abs=allow)


@pytest.mark.parametrize(
    "row", [pytest.param(row, id=row["id"]) for row in SOLVED if "limits" in row]
)
def test_of_the_published_limiting_reagent_nothing_is_left(
    tmp_path: Path, row: Row
) -> None:
    for formula, mass in row["start"].items():
        left = solve(tmp_path, row, f"left_{name_in(row, formula)}")
        is_used_up = abs(left) < 1e-9 * float(mass)
        assert is_used_up == (formula == row["limits"]), formula


# The example takes 10.0 mL each, 0.175 mol of acid and 0.171 mol of ethanol, and comes
# to 15.1 g of ethyl acetate, 16.8 mL; its source stands in the file.
ESTER = (DATA / "published_ester.toml").read_text("utf-8")


@pytest.mark.parametrize(
    ("name", "expected", "allow"),
    [
        ("acid_amount", 0.175, 0.001),
        ("ethanol_amount", 0.171, 0.001),
        ("ester_mass", 15.1, 0.1),
        ("ester_volume", 16.8, 0.1),
    ],
)
def test_volumes_go_through_densities_to_the_published_volume(
    tmp_path: Path, name: str, expected: float, allow: float
) -> None:
    drawn = {f"{each}_volume": np.array([10.0]) for each in ("acid", "ethanol")}
    solved = CompiledGraph(make_graph(tmp_path, ESTER)).solve(drawn)
    assert solved[name][0] == pytest.approx(expected, abs=allow)
