"""Which slips a class's values can show."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.support.student import DRAWN
from workbook.draw.visibility import Sight, asked_quantities, find_twins, see_slips
from workbook.graph.slip import Slip, SlipKind
from workbook.relation.tree import Number

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.graph.quantity import Graph


def sights_of(compiled: CompiledGraph, step: str) -> dict[SlipKind, Sight]:
    drawn = {name: np.array([value]) for name, value in DRAWN.items()}
    sights = see_slips(compiled.graph, compiled.solve(drawn))
    return {each.slip.kind: each for each in sights if each.step == step}


def test_readings_and_choices_are_not_worked_out(graph: Graph) -> None:
    asked = set(asked_quantities(graph))
    assert {"planned_oil_volume", "soap.molar_mass", "percent_yield"} <= asked
    assert not {"oil_volume", "dish", "limiting", "splash"} & asked


def test_a_slip_far_from_the_right_answer_is_seen(compiled: CompiledGraph) -> None:
    # 12.5 mL / 0.911 g/mL = 13.72 g beside 11.39 g.
    sight = sights_of(compiled, "oil_mass")[SlipKind.DENSITY_UPSIDE_DOWN]
    assert float(np.ravel(sight.value)[0]) == pytest.approx(13.7212, abs=1e-4)
    assert not sight.unseen.any()
    assert float(np.ravel(sight.half)[0]) == pytest.approx(0.05)


def sight(value: float, sentence: str, step: str = "a") -> Sight:
    slip = Slip(SlipKind.OWN, sentence, Number("1"))
    column = np.array([value])
    return Sight(step, slip, column, np.array([0.005]), np.array([False]))


def test_two_slips_of_one_value_and_two_sentences_are_twins() -> None:
    # Three figures: 1.234 and 1.238 are both typed as 1.23 or 1.24.
    found = find_twins([sight(1.234, "One."), sight(1.238, "Two."), sight(2.0, "Two.")])
    assert [bool(each.any()) for each in found] == [True, True, False]


def test_slips_of_one_sentence_or_of_two_steps_are_no_twins() -> None:
    same = find_twins([sight(1.0, "One."), sight(1.0, "One.")])
    apart = find_twins([sight(1.0, "One."), sight(1.0, "Two.", "b")])
    assert not any(each.any() for each in (*same, *apart))
