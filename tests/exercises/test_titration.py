"""
A lab with concordant runs, a dilution and an uncertainty, from its file to its marks.

It is a small one for tests; no lab that ships titrates.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from uncertainties import ufloat

from tests.support.lab import make_graph, make_lab
from workbook.graph.compile import CompiledGraph
from workbook.graph.compute import compute
from workbook.judge.case import Case, Convention
from workbook.judge.judge import judge_sheet
from workbook.rehearsal.lesson import rehearse
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.rehearsal.tally import Tally
    from workbook.wire.verdict import Verdict

TEXT = (Path(__file__).parents[1] / "data" / "vinegar_titration.toml").read_text()

#: Burette readings [mL]: titres of 21.90, 20.80 and 20.86 mL.
DRAWN = {
    "flask": 100.0,
    "agreement": 0.10,
    "burette_limit": 0.050,
    "pipette_limit": 0.020,
    "vinegar": 10.0,
    "aliquot": 25.0,
    "start_rough": 0.45,
    "start_first": 0.62,
    "start_second": 1.15,
    "equivalence": 20.80,
    "beyond": 1.10,
    "drop": 0.06,
}


@pytest.fixture(scope="module")
def case(tmp_path_factory: pytest.TempPathFactory) -> Case:
    """Return one student's copy."""
    compiled = CompiledGraph(make_graph(tmp_path_factory.mktemp("titration"), TEXT))
    quantities = compiled.graph.quantities
    drawn = {n: np.array([quantities[n].to_base(each)]) for n, each in DRAWN.items()}
    solved = compiled.solve(drawn)
    values = {name: float(np.ravel(column)[0]) for name, column in solved.items()}
    return Case(compiled.graph, values, Convention())


@pytest.fixture(scope="module")
def tally(tmp_path_factory: pytest.TempPathFactory) -> Tally:
    """Return the figures of a small class."""
    *_, last = rehearse(make_lab(tmp_path_factory.mktemp("class"), TEXT), 1500, seed=3)
    return last


# By hand: (20.80 + 20.86)/2 = 20.83 mL; at 0.1000 mol/L 2.083 mmol in 25.00 mL, so
# 0.08332 mol/L, and ten times that before the dilution.
@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("mean_titre", 20.83),
        ("acid_amount", 2.083),
        ("diluted_strength", 0.08332),
        ("vinegar_strength", 0.8332),
    ],
)
def test_the_runs_that_agree_lead_to_the_vinegar(
    case: Case, name: str, expected: float
) -> None:
    found = case.graph.quantities[name].from_base(case.values[name])
    assert found == pytest.approx(expected)


def test_the_strength_is_as_uncertain_as_a_reference_library_says(case: Case) -> None:
    strength = 0.1000 * ufloat(20.83, 0.05) / 25.0 * 100.0 / ufloat(10.0, 0.02)
    uncertain = case.graph.quantities["strength_uncertainty"]
    found = uncertain.from_base(case.values["strength_uncertainty"])
    assert found == pytest.approx(strength.std_dev, rel=1e-6)


READ = {
    "start_rough": "0.45 mL",
    "end_rough": "22.35 mL",
    "start_first": "0.62 mL",
    "end_first": "21.42 mL",
    "start_second": "1.15 mL",
    "end_second": "22.01 mL",
    "rough_titre": "21.90 mL",
    "first_titre": "20.80 mL",
    "second_titre": "20.86 mL",
}


def judge_mean(case: Case, mean: str) -> Verdict:
    """Return the verdict on a mean that a student typed after all titres."""
    texts = READ | {"mean_titre": mean}
    answers = {name: Typed(text) for name, text in texts.items()}
    return judge_sheet(case, answers)["mean_titre"]


def test_the_mean_of_the_concordant_runs_is_right(case: Case) -> None:
    assert judge_mean(case, "20.83 mL").outcome is Outcome.RIGHT


def test_a_mean_with_the_rough_run_is_named(case: Case) -> None:
    # (21.90 + 20.80 + 20.86)/3 = 21.19.
    said = judge_mean(case, "21.19 mL").sentence
    assert said == "The mean holds a run that does not agree with the others."


def test_a_simulated_class_is_judged_fairly(tally: Tally) -> None:
    assert tally.honest_wrong.of > 0
    assert tally.honest_wrong.hits == 0, tally.examples
    assert tally.followed.hits == tally.followed.of
    assert tally.variants_inside.hits == 0


def test_each_way_of_working_out_a_relation_gives_the_same_mean(case: Case) -> None:
    relation = case.graph.quantities["mean_titre"].relation
    assert relation is not None
    found = compute(case.graph, relation, case.values)
    assert found == pytest.approx(case.values["mean_titre"])
