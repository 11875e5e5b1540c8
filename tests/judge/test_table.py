"""
A reagent table, each cell judged from the student's own values.

By hand: 2.00 g of lime / 74.092 g/mol = 0.02699 mol, with Ca 40.078, O 15.999 and
H 1.008 of CIAAW 2021; 40.0 mL of vinegar × 2.00 mol/L = 0.0800 mol; 2.96 equivalents.
Two moles of acid go with one of lime, so the lime runs out first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lime import make_lime_case
from workbook.judge.judge import judge, judge_sheet
from workbook.judge.table import list_cells, spread
from workbook.judge.worked import work
from workbook.wire.answer import Filled, Filling, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case

RIGHT = {
    "lime amount": "0.0270",
    "vinegar amount": "0.0800 mol",
    "vinegar equivalents": "2.96",
}


@pytest.fixture
def lime(tmp_path: Path) -> Case:
    return make_lime_case(tmp_path)


def fill(limiting: str = "lime", **changed: str) -> Filled:
    """Return the right table with some cells changed, underscores for blanks."""
    cells = RIGHT | {key.replace("_", " "): text for key, text in changed.items()}
    names = [(*key.partition(" "), text) for key, text in cells.items()]
    return Filled(tuple(Filling(r, c, text) for r, _, c, text in names), limiting)


def verdict(case: Case, limiting: str = "lime", **changed: str) -> Verdict:
    return judge(case, "plan", {"plan": fill(limiting, **changed)})


def test_a_table_by_hand_is_right_with_units_beside_the_cells(lime: Case) -> None:
    said = verdict(lime)
    assert (said.outcome, said.parts) == (Outcome.RIGHT, (True,) * 4)
    assert said.unit_written


@pytest.mark.parametrize(
    ("cell", "text", "named"),
    [
        ("lime_amount", "148 mol", "calcium hydroxide, amount"),
        ("vinegar_amount", "80.0 mol", "acetic acid, amount"),
        ("vinegar_equivalents", "1.48", "acetic acid, equivalents"),
        ("lime_amount", "0.0270 g", "calcium hydroxide, amount"),
    ],
)
def test_a_wrong_cell_is_named_by_row_and_column(
    lime: Case, cell: str, text: str, named: str
) -> None:
    said = verdict(lime, **{cell: text})
    assert said.outcome is Outcome.PARTLY
    assert named in said.sentence
    assert not any(digit in said.sentence for digit in "0123456789")


def test_a_cell_follows_from_the_students_other_cells(lime: Case) -> None:
    """0.0800 mol / 0.0135 mol is 5.93: half the lime, twice the equivalents."""
    said = verdict(lime, lime_amount="0.0135", vinegar_equivalents="5.93")
    assert said.parts == (False, True, True, True)
    assert said.sentence == (
        "The rest holds. Look again at: calcium hydroxide, amount."
    )


def test_what_limits_follows_from_the_students_amounts(lime: Case) -> None:
    """0.0500 mol of lime would need 0.1000 mol of acid, and there are 0.0800."""
    own = {"lime_amount": "0.0500", "vinegar_equivalents": "1.60"}
    assert verdict(lime, "vinegar", **own).parts == (False, True, True, True)
    # What is really so is right as well.
    assert verdict(lime, "lime", **own).parts[-1]


def test_the_wrong_reagent_is_told_without_naming_one(lime: Case) -> None:
    said = verdict(lime, "vinegar")
    assert said.parts == (True, True, True, False)
    assert said.sentence == "The rest holds. Look again at: what runs out first."


def test_empty_cells_are_told_apart_from_wrong_ones(lime: Case) -> None:
    said = verdict(lime, "", lime_amount="", vinegar_equivalents="1.00")
    assert said.sentence == (
        "The rest holds. Look again at: acetic acid, equivalents. "
        "Still empty: calcium hydroxide, amount; what runs out first."
    )


def test_figures_are_told_where_every_value_holds(lime: Case) -> None:
    said = verdict(lime, vinegar_amount="0.0800000 mol")
    assert (said.outcome, said.value_holds) == (Outcome.FIGURES, True)
    assert "or too few, in: acetic acid, amount." in said.sentence


@pytest.mark.parametrize(
    ("text", "outcome"),
    [("many", Outcome.UNREAD), ("1,234", Outcome.ASKED)],
)
def test_a_cell_that_can_not_be_read_makes_no_attempt(
    lime: Case, text: str, outcome: Outcome
) -> None:
    said = verdict(lime, vinegar_amount=text)
    assert said.outcome is outcome
    assert said.sentence.startswith("acetic acid, amount: ")


def test_an_empty_table_is_no_attempt(lime: Case) -> None:
    nothing = dict.fromkeys(
        ("lime_amount", "vinegar_amount", "vinegar_equivalents"), ""
    )
    assert verdict(lime, "", **nothing).outcome is Outcome.BLANK


def test_cells_are_no_steps_of_the_sheet(lime: Case) -> None:
    assert set(judge_sheet(lime, {"plan": fill()})) == {"plan"}
    assert set(list_cells(lime.graph.lab.public.asks)) == {
        "planned_lime_amount",
        "planned_vinegar_amount",
        "vinegar_equivalents",
    }


def test_only_cells_with_something_in_them_are_spread(lime: Case) -> None:
    table = {"plan": fill(lime_amount=" ")}
    spreaded = spread(lime.graph.lab.public.asks, table)
    assert spreaded["plan vinegar amount"] == Typed("0.0800 mol")
    assert "plan lime amount" not in spreaded


def test_the_worked_table_is_the_one_by_hand(lime: Case) -> None:
    (table,) = (each for each in work(lime) if each.step_id == "plan")
    assert table.value_text == (
        "calcium hydroxide, amount: 0.0270 mol; acetic acid, amount: 0.0800 mol; "
        "acetic acid, equivalents: 2.96; what runs out first: calcium hydroxide"
    )
    assert table.substituted_text.startswith("2.00 g / 74.09 g/mol; ")
