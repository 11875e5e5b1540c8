"""A lab made ready: cases as they are drawn, sheets as they are shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import RIGHT
from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.solver.bench import Bench, prepare
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.labfile.half import Lab

KEY = CourseKey(b"\x07" * 32)


@pytest.fixture(scope="module")
def bench(lab: Lab) -> Bench:
    return prepare(lab, Conventions())


def test_students_are_drawn_together_or_one_by_one(bench: Bench) -> None:
    together = bench.draw(KEY, ["a", "b", "c"])
    alone = [bench.draw(KEY, [name])[0] for name in "abc"]
    assert [case.values for case in together] == [case.values for case in alone]


def test_a_sheet_shows_givens_and_instruments(bench: Bench, known_case: Case) -> None:
    sheet = bench.show(SheetId("c", "l", 1, "s"), known_case)
    assert {given.id: given.shown for given in sheet.givens} == {
        "planned_oil": "12.0 g",
        "trial_oil": "5.00 g",
        "trial_lye": "3.00 mL",
    }
    readings = {step.id: step.seen for step in sheet.postlab[:4]}  # type: ignore[union-attr]  # the first four are readings
    assert readings["dish"] == "45.20 g"
    assert readings["oil_volume"].startswith("The lowest point of the meniscus ")


def test_every_step_with_a_value_prints_its_allowance(bench: Bench) -> None:
    assert set(bench.allowances) == set(RIGHT)


def test_a_course_chooses_its_table_of_atomic_weights(lab: Lab) -> None:
    """C57H104O6 to two decimals: 57 × 12.01 + 104 × 1.01 + 6 × 16.00 = 885.61."""
    bench = prepare(lab, Conventions(atomic_weights="two decimals"))
    (case,) = bench.draw(KEY, ["a"])
    assert case.values["oil.molar_mass"] == pytest.approx(885.61)
    sheet = bench.show(SheetId("c", "l", 1, "a"), case)
    assert "oil = 885.61 g/mol" in str(sheet.step("soap.molar_mass"))
