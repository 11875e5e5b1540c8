"""Worked answers for the instructor, beside the same worked out by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import RIGHT
from workbook.judge.judge import judge_sheet
from workbook.judge.own import own_of
from workbook.judge.worked import Worked, print_value, work
from workbook.wire.answer import Chosen

if TYPE_CHECKING:
    from workbook.judge.case import Case


@pytest.fixture
def worked(case: Case) -> dict[str, Worked]:
    return {each.step_id: each for each in work(case)}


@pytest.mark.parametrize("step", RIGHT)
def test_the_answer_is_the_one_by_hand(worked: dict[str, Worked], step: str) -> None:
    assert worked[step].value_text == RIGHT[step]


def test_every_step_is_worked_in_the_order_of_the_sheet(
    case: Case, worked: dict[str, Worked]
) -> None:
    assert list(worked) == [ask.id for ask in case.graph.lab.public.asks]


def test_the_relation_is_printed_with_the_students_numbers(
    worked: dict[str, Worked],
) -> None:
    assert worked["oil_mass"].relation_text == "oil_volume × oil.density"
    assert worked["oil_mass"].substituted_text == "12.5 mL × 0.911 g/mL"
    assert worked["soap_mass"].substituted_text == "54.60 g - 45.20 g"


def test_a_ratio_is_printed_with_its_coefficients(worked: dict[str, Worked]) -> None:
    assert worked["soap_amount"].relation_text == "oil_amount × ratio(soap, oil)"
    assert worked["soap_amount"].substituted_text == "0.0129 mol × 3 / 1"


def test_a_reading_and_a_choice_have_no_relation(worked: dict[str, Worked]) -> None:
    for step in ("dish", "splash", "limiting"):
        assert worked[step].relation_text == ""
    assert worked["limiting"].value_text == "olive oil"


def test_what_is_printed_is_judged_right(case: Case) -> None:
    values = judge_sheet(case, {"limiting": Chosen(("oil",))})
    assert values["limiting"].value_holds


def test_a_tiny_value_is_printed_with_a_power_of_ten(case: Case) -> None:
    quantity = case.graph.quantities["oil_volume"]
    shown = own_of(case, quantity, {})
    assert print_value(case, quantity, shown) == "12.5 mL"
