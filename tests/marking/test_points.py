"""The rules that give points, applied to verdicts."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from workbook.labfile.course import CreditTable, MarkScheme
from workbook.marking.points import (
    Split,
    deduct,
    earn,
    has_wrong_figures,
    lacks_unit,
    split,
    total,
    worth,
)
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from workbook.labfile.half import Ask, PublicHalf

LAB = "olive-oil-soap"
THREE = Split(Decimal("1.5"), Decimal("1.5"))
TWO = Split(Decimal(0), Decimal(2))


def say(outcome: Outcome, **fields: bool | None) -> Verdict:
    return Verdict(outcome, "", **fields)  # type: ignore[arg-type] # fields are of one type here


def test_a_step_is_worth_what_its_kind_is(asks: dict[str, Ask]) -> None:
    found = [worth(MarkScheme(), LAB, asks[step]) for step in ("dish", "oil_mass")]
    assert found == [Decimal(1), Decimal(3)]


def test_a_step_may_be_worth_more_in_one_lab(asks: dict[str, Ask]) -> None:
    scheme = MarkScheme.model_validate({"steps": {LAB: {"dish": "2.5"}}})
    assert worth(scheme, LAB, asks["dish"]) == Decimal("2.5")
    assert worth(scheme, "other", asks["dish"]) == Decimal(1)


def test_a_lab_is_worth_the_sum_of_its_steps(public: PublicHalf) -> None:
    # 4 readings of 1, 7 numbers of 2, 6 chains of 3, 1 algebra of 3, 4 choices of 1.
    before = 4 * 1 + 7 * 2 + 6 * 3 + 1 * 3 + 4 * 1
    # A table of 4, 3 matchings, an order and 2 texts of 2, a mechanism of 3, a
    # prediction of 1.
    assert total(MarkScheme(), public) == before + 4 + 3 * 2 + 2 + 2 * 2 + 3 + 1


def test_a_chain_is_split_between_method_and_value(asks: dict[str, Ask]) -> None:
    assert split(MarkScheme(), LAB, asks["oil_mass"]) == THREE
    assert split(MarkScheme(), LAB, asks["soap_mass"]) == TWO


def test_the_method_may_earn_everything(asks: dict[str, Ask]) -> None:
    scheme = MarkScheme.model_validate({"credit": {"method": 1}})
    assert split(scheme, LAB, asks["oil_mass"]) == Split(Decimal(3), Decimal(0))


@pytest.mark.parametrize(
    ("verdict", "points"),
    [
        (say(Outcome.RIGHT, value_holds=True), "2"),
        (say(Outcome.FOLLOWS, value_holds=True, follows=True), "2"),
        (say(Outcome.FIGURES, value_holds=True), "2"),
        (say(Outcome.WRONG), "0"),
        (say(Outcome.DIMENSION), "0"),
        (say(Outcome.SLIP), "0"),
    ],
)
def test_a_number_earns_by_its_value(verdict: Verdict, points: str) -> None:
    assert earn(CreditTable(), TWO, verdict).both == Decimal(points)


@pytest.mark.parametrize(
    ("verdict", "method", "value"),
    [
        (say(Outcome.RIGHT, value_holds=True, method_holds=True), "1.5", "1.5"),
        (say(Outcome.WRONG, value_holds=True, method_holds=False), "0", "1.5"),
        (say(Outcome.WRONG, value_holds=False, method_holds=True), "1.5", "0"),
        (say(Outcome.WRONG, value_holds=False, method_holds=False), "0", "0"),
    ],
)
def test_a_chain_earns_for_method_and_value_apart(
    verdict: Verdict, method: str, value: str
) -> None:
    earned = earn(CreditTable(), THREE, verdict)
    assert earned == Split(Decimal(method), Decimal(value))


def test_credit_for_what_follows_and_for_a_slip_is_the_courses() -> None:
    credit = CreditTable.model_validate({"follows": "0.8", "slip": "0.25"})
    follows = say(Outcome.FOLLOWS, value_holds=True, follows=True)
    assert earn(credit, TWO, follows).both == Decimal("1.6")
    assert earn(credit, TWO, say(Outcome.SLIP)).both == Decimal("0.5")


@pytest.mark.parametrize("outcome", sorted(NO_ATTEMPT, key=str))
def test_what_was_no_attempt_earns_and_loses_nothing(outcome: Outcome) -> None:
    verdict = say(outcome, value_holds=True, method_holds=True, unit_written=False)
    assert earn(CreditTable(), THREE, verdict).both == 0
    assert not lacks_unit(verdict)


def test_a_unit_is_missed_only_where_the_value_holds() -> None:
    assert lacks_unit(say(Outcome.RIGHT, value_holds=True, unit_written=False))
    assert not lacks_unit(say(Outcome.WRONG, value_holds=False, unit_written=False))


def test_wrong_figures_are_an_outcome_of_their_own() -> None:
    assert has_wrong_figures(say(Outcome.FIGURES, value_holds=True))
    assert not has_wrong_figures(say(Outcome.RIGHT, value_holds=True))


@pytest.mark.parametrize(("earned", "off"), [("5", "2"), ("2", "2"), ("1.5", "1.5")])
def test_no_more_is_taken_off_than_was_earned(earned: str, off: str) -> None:
    assert deduct(Decimal(earned), [Decimal(1), Decimal(1)]) == Decimal(off)


@pytest.mark.parametrize(
    ("parts", "points"),
    [
        ((True, True, True), "2"),
        ((True, False, False, True), "1"),
        # Two thirds of 2 points are 1.333...
        ((True, False, True), "1.33"),
        ((False, False), "0"),
    ],
)
def test_each_part_of_a_table_earns_its_share(
    parts: tuple[bool, ...], points: str
) -> None:
    verdict = Verdict(Outcome.PARTLY, "", parts=parts)
    assert earn(CreditTable(), TWO, verdict).both == Decimal(points)
