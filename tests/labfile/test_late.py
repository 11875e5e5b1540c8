"""The rule for late work, as a course file says it."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from workbook.labfile.late import LateTable


@pytest.mark.parametrize(
    "table",
    [
        {"rule": "share a day", "takes": "0.10", "until_days": 7},
        {"rule": "share once", "takes": "0.30", "until_days": "next lab"},
        {"rule": "points a day", "takes": 10, "of": "worth"},
        {"rule": "all", "grace_minutes": 15},
    ],
)
def test_each_rule_of_the_trade_can_be_said(table: dict[str, object]) -> None:
    assert LateTable.model_validate(table).rule == table["rule"]


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ({"rule": "share a day"}, "needs takes above 0"),
        ({"rule": "all", "takes": 1}, "takes no number"),
        ({"rule": "share once", "takes": 30}, 'a share from 0 to 1 here: "0.10"'),
        ({"rule": "share once", "takes": "0.3", "until_days": "soon"}, "until_days"),
    ],
)
def test_a_rule_that_does_not_fit_is_refused(
    table: dict[str, object], said: str
) -> None:
    with pytest.raises(ValidationError, match=said):
        LateTable.model_validate(table)
