"""One student's paper, against values worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.rehearsal.conftest import THREE
from workbook.rehearsal.habit import EXACT
from workbook.rehearsal.paper import Paper
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    import random

    from workbook.judge.case import Case


# By hand, from the molar masses that a sheet prints (885.45, 40.00, 210.14 g/mol) and
# 304.45 g/mol for the soap: 12.5 × 0.911 = 11.3875; / 885.45 = 0.01286069; × 3; × M.
@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("oil_mass", 11.3875),
        ("oil_amount", 0.01286069),
        ("soap_amount", 0.03858207),
        ("lye_amount", 11.5 * 1.219 * 0.200 / 40.00),
        ("soap_mass", 9.40),
    ],
)
def test_values_follow_as_by_hand(paper: Paper, name: str, value: float) -> None:
    assert float(paper.carried(name)) == pytest.approx(value, rel=1e-6)


def test_who_rounds_goes_on_with_what_was_rounded(
    case: Case, chance: random.Random
) -> None:
    # 11.4 / 885.45 = 0.0128748, typed 0.0129; × 3 = 0.0387.
    paper = Paper(case, THREE, chance, {})
    assert paper.carried("oil_mass") == Decimal("11.4")
    assert paper.carried("oil_amount") == Decimal("0.0129")
    assert paper.carried("soap_amount") == Decimal("0.0387")


def test_a_molar_mass_is_summed_from_the_students_table(
    case: Case, chance: random.Random
) -> None:
    # 57 × 12.01 + 104 × 1.01 + 6 × 16.00, with two decimals.
    habit = replace(EXACT, table="two decimals")
    paper = Paper(case, habit, chance, {})
    assert paper.carried("oil.molar_mass") == Decimal("885.61")


def test_a_mistake_is_carried_on(case: Case, chance: random.Random) -> None:
    # 12.5 / 0.911 = 13.72119 g; / 885.45 = 0.01549629 mol.
    wrong = {"oil_mass": read_relation("oil_volume / oil.density")}
    paper = Paper(case, EXACT, chance, wrong)
    assert float(paper.carried("oil_amount")) == pytest.approx(0.01549629, rel=1e-6)


def test_scales_are_misread_by_a_digit_at_most_and_displays_never(
    case: Case, chance: random.Random
) -> None:
    habit = replace(EXACT, misreads=True)
    papers = [Paper(case, habit, chance, {}) for _ in range(60)]
    volumes = {str(paper.carried("oil_volume")) for paper in papers}
    assert volumes == {"12.4", "12.5", "12.6"}
    assert {float(paper.carried("dish")) for paper in papers} == {45.20}


def test_a_mistake_without_a_value_is_told(case: Case, chance: random.Random) -> None:
    wrong = {"oil_mass": read_relation("oil_volume / (dish - dish)")}
    with pytest.raises(ArithmeticError):
        Paper(case, EXACT, chance, wrong)


def test_a_relation_is_worked_out_on_the_paper(paper: Paper) -> None:
    found = paper.work_out(read_relation("min(dish, 100) - sqrt(ratio(soap, oil) + 1)"))
    assert found.value == Decimal("43.2")
