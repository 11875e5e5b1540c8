"""The worked answer of a step, beside the same worked out by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL, make_graph, make_lab
from tests.support.student import RIGHT, make_case
from workbook.graph.compile import CompiledGraph
from workbook.judge.explained import explain, explain_all
from workbook.solver.practice import PracticeSource

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case


def words(case: Case, step: str) -> list[str]:
    """Return the lines of a step's worked answer in words."""
    return [line.words for line in explain(case, step)]


def test_a_product_is_shown_in_words_in_numbers_and_as_its_value(case: Case) -> None:
    assert words(case, "oil_mass") == [
        "mass of olive oil",
        "= volume of olive oil × density of olive oil",
        "= 12.5 mL × 0.911 g/mL",
        "= 11.4 g",
    ]


def test_each_number_is_set_with_its_unit(case: Case) -> None:
    *_, numbers, value = (line.latex for line in explain(case, "oil_mass"))
    assert numbers == r"= 12.5\ \text{mL} \cdot 0.911\ \text{g/mL}"
    assert value == r"= 11.4\ \text{g}"


def test_a_fraction_is_set_as_one(case: Case) -> None:
    _, relation, numbers, _ = (line.latex for line in explain(case, "oil_amount"))
    assert relation.endswith(
        r"\frac{\text{mass of olive oil}}{\text{molar mass of olive oil}}"
    )
    assert numbers == r"= \frac{11.4\ \text{g}}{885.45\ \text{g/mol}}"


def test_a_ratio_is_shown_by_its_coefficients(case: Case) -> None:
    *_, numbers, value = words(case, "soap_amount")
    # oil + 3 lye -> 3 soap + glycerol
    assert numbers == "= 0.0129 mol × 3 divided by 1"
    assert value == "= 0.0386 mol"


def test_the_algebra_is_shown_with_the_formulas_of_its_pieces(case: Case) -> None:
    relation = explain(case, "soap.molar_mass")[1].latex
    assert r"M(\mathrm{C_{3}H_{5}})" in relation
    assert words(case, "soap.molar_mass")[-1] == "= 304.45 g/mol"


def test_a_reading_and_a_choice_are_words_alone(case: Case) -> None:
    (reading,) = explain(case, "dish")
    assert reading.words == "The instrument shows 45.20 g."
    assert words(case, "lye_statements") == [
        "H290 May be corrosive to metals",
        "H314 Causes severe skin burns and eye damage",
    ]
    assert reading.latex == explain(case, "splash")[0].latex == ""


@pytest.mark.parametrize("step", RIGHT)
def test_every_number_ends_at_its_value_by_hand(case: Case, step: str) -> None:
    assert RIGHT[step] in words(case, step)[-1]


@pytest.mark.parametrize("step", RIGHT)
def test_latex_has_as_many_braces_opened_as_closed(case: Case, step: str) -> None:
    for line in explain(case, step):
        assert line.latex.count("{") == line.latex.count("}")
        assert "$" not in line.latex


def test_what_no_step_asks_for_is_worked_out_first(tmp_path: Path) -> None:
    make_lab(tmp_path)
    source = PracticeSource(tmp_path / "chalk-in-acid")
    first, _, numbers, *_ = words(source.case(source.fresh()), "percent_yield")
    assert first == "salt mass"
    assert numbers.count(" g") == 2


def test_all_steps_are_explained_as_each_is_alone(case: Case) -> None:
    asks = case.graph.lab.public.asks
    assert explain_all(case) == {ask.id: explain(case, ask.id) for ask in asks}


#: What the oil of the trial weighs again, from an amount that a table asks for.
AGAIN = """
[quantities.again]
unit = "g"
is = "trial_oil_amount * oil.molar_mass"
name = "mass again"

[[prelab]]
kind = "number"
of = "again"
asks = "?"
"""


def test_what_a_table_asks_for_is_not_worked_out_again(tmp_path: Path) -> None:
    text = (OLIVE_OIL / "lab.toml").read_text("utf-8") + AGAIN
    case = make_case(CompiledGraph(make_graph(tmp_path, text)))
    # 0.00565 mol × 885.45 g/mol
    assert words(case, "again")[0] == "mass again"
    assert words(case, "again")[-1] == "= 5.00 g"
