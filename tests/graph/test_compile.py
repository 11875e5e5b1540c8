"""A class solved at once, held against each student worked out alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.support.lab import CHALK, WEIGHTS, edit, make_graph
from workbook.draw.key import CourseKey
from workbook.draw.sample import draw_class
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph, round_reading
from workbook.graph.compute import compute, compute_span
from workbook.graph.quantity import Graph, Origin
from workbook.graph.span import Span
from workbook.relation.tree import names

if TYPE_CHECKING:
    from pathlib import Path

    from numpy.typing import NDArray

STUDENTS = [f"student-{number}" for number in range(200)]


@pytest.fixture(scope="module")
def drawn(compiled: CompiledGraph) -> list[dict[str, float]]:
    """Return the values of 200 students of the olive-oil lab."""
    of_class = draw_class(compiled, CourseKey(bytes(range(32))), STUDENTS)
    return [of_class.of(index) for index in range(len(STUDENTS))]


def test_a_class_is_solved_as_each_student_is(
    graph: Graph, drawn: list[dict[str, float]]
) -> None:
    for values in drawn:
        for name, quantity in graph.quantities.items():
            if quantity.relation is None or quantity.origin is Origin.READING:
                continue
            alone = compute(graph, quantity.relation, values)
            assert values[name] == pytest.approx(alone, rel=1e-12), name


def test_a_span_around_the_inputs_holds_what_every_student_gets(
    graph: Graph, drawn: list[dict[str, float]]
) -> None:
    for values in drawn:
        for name, quantity in graph.quantities.items():
            if quantity.relation is None or quantity.origin is Origin.READING:
                continue
            spans = {
                each: Span.around(values[each], abs(values[each]) * 1e-3)
                for each in names(quantity.relation)
            }
            assert compute_span(graph, quantity.relation, spans).holds(values[name])


def test_a_derived_reading_is_rounded_to_what_its_instrument_shows(
    graph: Graph, drawn: list[dict[str, float]]
) -> None:
    relation = graph.quantities["dish_and_soap"].relation
    assert relation is not None
    for values in drawn:
        # A balance of 0.01 g.
        unrounded = compute(graph, relation, values)
        assert values["dish_and_soap"] == round(values["dish_and_soap"], 2)
        assert abs(values["dish_and_soap"] - unrounded) <= 0.005 + 1e-9


def test_what_follows_from_a_reading_follows_from_what_is_shown(
    drawn: list[dict[str, float]],
) -> None:
    for values in drawn:
        shown = values["dish_and_soap"] - values["dish"]
        assert values["soap_mass"] == pytest.approx(shown, abs=1e-9)


def solve(
    folder: Path, relation: str, columns: dict[str, NDArray[np.float64]]
) -> NDArray[np.float64]:
    """Return the mass of salt of the chalk lab, given by another relation."""
    text = edit(CHALK, ('"dish_and_salt - dish"', f'"{relation}"'))
    count = len(next(iter(columns.values())))
    drawn = {
        "planned_chalk": np.full(count, 2.0),
        "chalk_mass": np.full(count, 2.0),
        "acid_volume": np.full(count, 40.0),
        "dish": np.full(count, 35.0),
        "share": np.full(count, 0.8),
    }
    compiled = CompiledGraph(make_graph(folder, text))
    return compiled.solve(drawn | columns)["salt_mass"]


@pytest.mark.parametrize(
    ("relation", "masses", "expected"),
    [
        ("min(chalk_mass, dish)", [1.0, 40.0], [1.0, 35.0]),
        ("max(chalk_mass, dish, planned_chalk)", [1.0, 40.0], [35.0, 40.0]),
        ("chalk_mass * max(chalk_mass / dish, 0.5)", [1.0, 35.0], [0.5, 35.0]),
        ("chalk_mass * log10(chalk_mass / planned_chalk)", [2.0, 20.0], [0.0, 20.0]),
        ("chalk_mass * exp10(chalk_mass / planned_chalk)", [2.0, 4.0], [20.0, 400.0]),
        ("concordant(planned_chalk, chalk_mass, dish)", [34.0, 36.0], [34.5, 35.5]),
        ("dish * sqrt(chalk_mass / planned_chalk)", [2.0, 8.0], [35.0, 70.0]),
        ("chalk_mass^2 / planned_chalk", [2.0, 4.0], [2.0, 8.0]),
    ],
)
def test_functions_work_on_columns(
    tmp_path: Path, relation: str, masses: list[float], expected: list[float]
) -> None:
    found = solve(tmp_path, relation, {"chalk_mass": np.array(masses)})
    assert found.tolist() == pytest.approx(expected)


def test_a_value_that_can_not_be_is_no_number_and_warns_of_nothing(
    tmp_path: Path,
) -> None:
    relation = "dish * log10(chalk_mass / planned_chalk - 1)"
    found = solve(tmp_path, relation, {"chalk_mass": np.array([1.0, 22.0])})
    assert np.isfinite(found).tolist() == [False, True]


def test_a_relation_of_constants_alone_gives_the_same_to_all(tmp_path: Path) -> None:
    relation = "chalk.molar_mass / chalk.molar_mass * acid.molar_mass * acid_amount"
    found = solve(tmp_path, relation, {"acid_volume": np.array([40.0, 40.0])})
    assert found[0] == found[1]


def test_a_quantity_called_like_a_function_of_sympy_hides_nothing(
    tmp_path: Path,
) -> None:
    text = (
        CHALK.replace("salt_yield", "log")
        .replace("share", "sin")
        .replace('"dish_and_salt - dish"', '"log * log10(dish / chalk_mass)"')
    )
    compiled = CompiledGraph(make_graph(tmp_path, text))
    given = {"planned_chalk": 2.0, "chalk_mass": 2.0, "acid_volume": 40.0}
    given |= {"dish": 20.0, "sin": 0.8}
    solved = compiled.solve({n: np.array([value]) for n, value in given.items()})
    # The logarithm of 20 / 2 is 1.
    assert solved["salt_mass"][0] == pytest.approx(solved["log"][0])


def test_names_that_sympy_takes_for_its_own_are_ordinary_here(tmp_path: Path) -> None:
    text = CHALK
    for old, new in (("salt_yield", "E"), ("salt_mass", "I"), ("share", "S")):
        text = text.replace(old, new)
    text = text.replace("chalk_amount", "N").replace("acid_amount", "lambda")
    compiled = CompiledGraph(make_graph(tmp_path, text))
    given = {"planned_chalk": 2.0, "chalk_mass": 2.0, "acid_volume": 40.0}
    given |= {"dish": 20.0, "S": 0.8}
    solved = compiled.solve({n: np.array([value]) for n, value in given.items()})
    # 2.00 g of CaCO3 at 100.086 g/mol; 40.0 mL of 2.00 mol/L.
    assert solved["N"][0] == pytest.approx(2.0 / 100.086)
    assert solved["lambda"][0] == pytest.approx(0.0800)


def test_only_a_derived_reading_is_rounded(graph: Graph) -> None:
    column = np.array([1.23456])
    assert round_reading(graph.quantities["dish_and_soap"], column)[0] == 1.23
    assert round_reading(graph.quantities["soap_mass"], column)[0] == 1.23456


def test_the_other_table_of_weights_gives_other_values(graph: Graph) -> None:
    again = CompiledGraph(build_graph(graph.lab, WEIGHTS))
    values = again.solve({"oil_volume": np.array([12.0])} | _rest())
    # 12.0 mL x 0.911 g/mL = 10.932 g; / 885.453 g/mol = 0.0123462 mol.
    assert values["oil_mass"][0] == pytest.approx(10.932)
    assert values["oil_amount"][0] == pytest.approx(0.0123462, rel=1e-5)


def _rest() -> dict[str, NDArray[np.float64]]:
    given = {"lye_volume": 12.0, "dish": 40.0, "recovery": 0.8, "planned_oil": 11.0}
    given |= {"trial_oil": 5.0, "trial_lye": 3.0}
    return {name: np.array([value]) for name, value in given.items()}
