"""Draws that no student should get."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.support.lab import CHALK, OLIVE_OIL, edit, make_graph
from workbook.draw.fairness import NEAR_TIE, never_seen, refuse
from workbook.draw.key import CourseKey
from workbook.draw.sample import draw_class
from workbook.graph.compile import CompiledGraph

if TYPE_CHECKING:
    from pathlib import Path

#: A fair draw of the chalk lab: 2.00 g of CaCO3 are 0.01998 mol, 40.3 mL of acid
#: 0.0806 mol, of which twice 0.01998 are used.
FAIR = {
    "planned_chalk": 2.3,
    "chalk_mass": 2.0,
    "acid_volume": 40.3,
    "dish": 35.0,
    "share": 0.8,
}


def reasons(folder: Path, text: str = CHALK, **drawn: float) -> list[str]:
    """Return the reasons against a draw of one student."""
    compiled = CompiledGraph(make_graph(folder, text))
    columns = {name: np.array([value]) for name, value in (FAIR | drawn).items()}
    return refuse(compiled.graph, compiled.solve(columns), 1)


def test_a_fair_draw_is_passed(tmp_path: Path) -> None:
    assert reasons(tmp_path) == [""]


@pytest.mark.parametrize("share", [0.5, 0.995])
def test_a_value_outside_its_plausible_range_is_refused(
    tmp_path: Path, share: float
) -> None:
    # The range of the percent yield is 60 .. 99 %.
    assert reasons(tmp_path, share=share) == ["'percent_yield' is not plausible."]


def test_a_reading_beyond_the_scale_is_refused(tmp_path: Path) -> None:
    # The balance shows up to 400 g; the dish with the salt weighs more.
    said = "'dish_and_salt' is off the scale of its instrument."
    assert reasons(tmp_path, dish=399.0) == [said]


def test_a_reading_below_the_scale_is_refused(tmp_path: Path) -> None:
    text = edit(
        CHALK,
        ("dish + share * salt_yield", "share * salt_yield - dish"),
        ('plausible = "60 .. 99 %"\n', ""),
    )
    said = "'dish_and_salt' is off the scale of its instrument."
    assert reasons(tmp_path, text) == [said]


def test_a_value_that_can_not_be_worked_out_is_refused(tmp_path: Path) -> None:
    said = reasons(tmp_path, chalk_mass=0.0)
    assert said == ["'percent_yield' has no value."]


# 2.00 g of CaCO3 at 100.086 g/mol need 0.039966 mol of HCl, 19.98 mL of 2.00 mol/L.
@pytest.mark.parametrize(
    ("acid_ml", "is_tie"),
    [
        (19.98, True),
        (19.98 * 1.04, True),
        (19.98 / 1.04, True),
        (19.98 * 1.06, False),
        (19.98 / 1.06, False),
    ],
)
def test_two_reagents_within_a_twentieth_are_refused(
    tmp_path: Path, acid_ml: float, *, is_tie: bool
) -> None:
    said = "'limiting' is nearly a tie." if is_tie else ""
    assert reasons(tmp_path, acid_volume=acid_ml) == [said]


def test_a_tie_does_not_hang_on_which_reagent_is_named_first(tmp_path: Path) -> None:
    text = edit(
        CHALK,
        (
            'of = { chalk = "chalk_amount", acid = "acid_amount" }',
            'of = { acid = "acid_amount", chalk = "chalk_amount" }',
        ),
    )
    assert reasons(tmp_path, text, acid_volume=19.98) == ["'limiting' is nearly a tie."]


# The same chalk: with 1 %, two hundredths apart are no tie any more.
@pytest.mark.parametrize(("acid_ml", "is_tie"), [(20.38, False), (20.08, True)])
def test_an_author_says_how_near_two_reagents_may_come(
    tmp_path: Path, acid_ml: float, *, is_tie: bool
) -> None:
    text = edit(CHALK, ('name = "limiting"', 'name = "limiting"\nclosest = "1 %"'))
    said = "'limiting' is nearly a tie." if is_tie else ""
    assert reasons(tmp_path, text, acid_volume=acid_ml) == [said]


def test_each_student_is_judged_alone(tmp_path: Path) -> None:
    compiled = CompiledGraph(make_graph(tmp_path))
    columns = {name: np.full(3, value) for name, value in FAIR.items()}
    columns["acid_volume"] = np.array([40.3, 19.98, 40.3])
    columns["share"] = np.array([0.8, 0.8, 0.5])
    assert refuse(compiled.graph, compiled.solve(columns), 3) == [
        "",
        "'limiting' is nearly a tie.",
        "'percent_yield' is not plausible.",
    ]


@pytest.mark.parametrize(
    ("acid_ml", "is_refused"),
    # A cylinder for 50 mL has a line at every millilitre (ASTM E1272-02, table 1).
    [(40.0, True), (40.1, False), (40.5, False), (40.9, False), (41.0, True)],
)
def test_a_reading_on_a_line_is_refused(
    tmp_path: Path, acid_ml: float, *, is_refused: bool
) -> None:
    said = "'acid_volume' lies on a line of its scale." if is_refused else ""
    assert reasons(tmp_path, acid_volume=acid_ml) == [said]


@pytest.mark.parametrize(("share", "is_refused"), [(1.0, True), (0.9, False)])
def test_a_draw_in_which_a_slip_gives_the_right_answer_is_refused(
    tmp_path: Path, share: float, *, is_refused: bool
) -> None:
    # A yield of 100 % is the same upside down; of 90 %, it would be 111 %.
    text = edit(CHALK, ("60 .. 99 %", "60 .. 101 %"))
    said = reasons(tmp_path, text, share=share)[0]
    assert said.startswith("'percent_yield' would not show") == is_refused


def test_a_slip_that_no_draw_can_show_refuses_none(tmp_path: Path) -> None:
    # At 0.998 g/mL three figures of a mass and of its volume are nearly always one.
    text = (OLIVE_OIL / "lab.toml").read_text("utf-8").replace("0.911 g", "0.998 g")
    compiled = CompiledGraph(make_graph(tmp_path, text))
    steps = {step for step, _ in never_seen(compiled.graph)}
    assert {"oil_mass", "planned_oil_volume"} <= steps
    assert draw_class(compiled, CourseKey(bytes(32)), ["a"]).students == ("a",)


def test_near_is_a_twentieth() -> None:
    # The rule of the design: two reagents within 5 % of both limiting.
    assert NEAR_TIE == 0.05
