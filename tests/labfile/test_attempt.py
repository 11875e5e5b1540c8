"""The rules for attempts, as a course file says them."""

from __future__ import annotations

from decimal import Decimal

import pytest
from pydantic import ValidationError

from workbook.labfile.attempt import AttemptsTable


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
