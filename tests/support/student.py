"""One student of the olive-oil lab, with values that were worked out by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from workbook.judge.case import Case, Convention
from workbook.judge.judge import judge
from workbook.wire.answer import Answer, Built, Derived, Placed, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.compile import CompiledGraph
    from workbook.wire.verdict import Verdict

#: What a wrong value is: whether its mistake is known by name is told elsewhere.
NOT_RIGHT = frozenset({Outcome.WRONG, Outcome.SLIP})

#: What is drawn: grams, millilitres, and a share.
DRAWN = {
    "planned_oil": 12.0,
    "trial_oil": 5.00,
    "trial_lye": 3.00,
    "oil_volume": 12.5,
    "lye_volume": 11.5,
    "dish": 45.20,
    "recovery": 0.80,
}

# By hand, from the constants that the lab file prints and weights of CIAAW 2021:
#   oil   12.5 mL × 0.911 g/mL = 11.3875 g; / 885.453 g/mol = 0.012861 mol
#   lye   11.5 mL × 1.219 g/mL × 0.200 / 39.997 g/mol = 0.070098 mol
#   soap  3 × 0.012861 = 0.038582 mol; × 304.449 g/mol = 11.7463 g
#   dish  45.20 g + 0.80 × 11.7463 g = 54.60 g; soap 9.40 g; 80.0 %
#   lye left 0.070098 - 0.038582 = 0.031516 mol; / 3 × 210.138 g/mol = 2.2076 g
#   plan  12.0 g / 0.911 g/mL = 13.172 mL; / 885.453 = 0.013552 mol; × 3 = 0.040657 mol;
#         × 39.997 / (0.200 × 1.219) = 6.6700 mL
#   trial 5.00 g / 885.453 g/mol = 0.0056468 mol; 3.00 mL × 1.219 g/mL × 0.200 /
#         39.997 g/mol = 0.018286 mol; 0.018286 / 0.0056468 = 3.2384 equivalents
RIGHT: Mapping[str, str] = {
    "planned_oil_volume": "13.2 mL",
    "planned_oil_amount": "0.0136 mol",
    "lye_needed": "0.0407 mol",
    "lye_needed_volume": "6.67 mL",
    "oil_volume": "12.5 mL",
    "lye_volume": "11.5 mL",
    "dish": "45.20 g",
    "dish_and_soap": "54.60 g",
    "oil_mass": "11.4 g",
    "oil_amount": "0.0129 mol",
    "lye_amount": "0.0701 mol",
    "soap.molar_mass": "304.45 g/mol",
    "soap_amount": "0.0386 mol",
    "theoretical_yield": "11.7 g",
    "soap_mass": "9.40 g",
    "percent_yield": "80.0 %",
    "lye_left": "0.0315 mol",
    "acid_mass": "2.21 g",
}

CHAINS = {
    "planned_oil_volume": Placed("oil.density", turned=True),
    "planned_oil_amount": Placed("oil.molar_mass", turned=True),
    "lye_needed": Placed("ratio(lye, oil)", turned=False),
    "oil_mass": Placed("oil.density", turned=False),
    "oil_amount": Placed("oil.molar_mass", turned=True),
    "soap_amount": Placed("ratio(soap, oil)", turned=False),
}

LINES = ("oil = C3H5 + 3x", "x = (oil - C3H5)/3", "soap = x + Na")


def make_case(
    compiled: CompiledGraph, convention: Convention | None = None, **drawn: float
) -> Case:
    """Return the case of a student who was drawn these values."""
    columns = {name: np.array([value]) for name, value in (DRAWN | drawn).items()}
    solved = compiled.solve(columns)
    values = {name: float(np.ravel(column)[0]) for name, column in solved.items()}
    return Case(compiled.graph, values, convention or Convention())


def answer(step: str, text: str) -> Answer:
    """Return an answer whose working holds, and whose result is as given."""
    if step in CHAINS:
        return Built((CHAINS[step],), text)
    return Derived(LINES, text) if step == "soap.molar_mass" else Typed(text)


def answers(**texts: str) -> dict[str, Answer]:
    """Return answers whose working holds, with these results."""
    return {step: answer(step, text) for step, text in texts.items()}


def all_right(**changed: str) -> dict[str, Answer]:
    """Return the right result of every step that has a value, some changed."""
    return answers(**(dict(RIGHT) | changed))


def verdict_on(case: Case, step: str, text: str, /, **earlier: str) -> Verdict:
    """Return the verdict on one result after some earlier ones."""
    return judge(case, step, answers(**earlier) | {step: answer(step, text)})
