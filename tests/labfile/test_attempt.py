"""The rules for attempts, as a course file says them."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from pydantic import ValidationError

from workbook.labfile.attempt import AttemptsTable, find_limits, find_rule

if TYPE_CHECKING:
    from workbook.labfile.half import Lab


def test_attempts_are_free_and_without_end_unless_said() -> None:
    rule = AttemptsTable().postlab
    assert (rule.most, rule.takes) == (0, Decimal(0))


@pytest.mark.parametrize(
    "table",
    [
        {"postlab": {"most": -1}},
        {"postlab": {"free": 0}},
        {"postlab": {"takes": "1.5"}},
        {"steps": {"soap": {"dish": True}}},
        {"most": 3},
    ],
)
def test_a_rule_that_can_not_be_is_refused(table: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        AttemptsTable.model_validate(table)


TABLE = AttemptsTable.model_validate(
    {
        "prelab": {"most": 5},
        "postlab": {"free": 3},
        "steps": {"olive-oil-soap": {"oil_mass": 2, "salting_out": 1}},
    }
)


def test_a_part_has_its_rule_and_a_step_its_own_limit(lab: Lab) -> None:
    rules = {
        ask.id: find_rule(TABLE, lab.public, ask)
        for ask in lab.public.asks
        if ask.id in {"planned_oil_amount", "oil_mass", "oil_amount"}
    }
    most = {step: rule.most for step, rule in rules.items()}
    assert most == {"planned_oil_amount": 5, "oil_mass": 2, "oil_amount": 0}
    assert rules["oil_mass"].free == 3


def test_what_is_answered_once_has_no_limit(lab: Lab) -> None:
    found = find_limits(TABLE, lab.public)
    kinds = {ask.kind for ask in lab.public.asks if ask.id in found}
    assert found["oil_mass"] == 2
    # What happens at the salting out is predicted, and predicted once.
    assert "salting_out" not in found
    assert kinds.isdisjoint({"prediction", "text"})
