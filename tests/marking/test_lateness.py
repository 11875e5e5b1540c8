"""
What late work loses, each sum worked out by hand.

The rules are those that universities print: 10 % a day to one week, then zero; half for
one week, then zero; 30 % once until the next lab; 10 points a day.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest

from workbook.labfile.calendar import Calendar, DatesTable, ExtensionTable
from workbook.labfile.late import LateTable
from workbook.marking.lateness import find_deadline, find_lateness

DUE = datetime(2026, 10, 12, 17, tzinfo=UTC)
CALENDAR = Calendar(
    ZoneInfo("UTC"),
    {
        "soap": DatesTable(due=DUE, closed=DUE + timedelta(days=30)),
        "salt": DatesTable(due=DUE + timedelta(days=3)),
    },
    {
        ("a1", "soap"): ExtensionTable(
            student="a1", lab="soap", due=DUE + timedelta(days=2), reason="ill"
        )
    },
    ["soap", "salt"],
)
TENTH = {"rule": "share a day", "takes": "0.10", "until_days": 7}
HALF = {"rule": "share once", "takes": "0.50", "until_days": 7}
ONCE = {"rule": "share once", "takes": "0.30", "until_days": "next lab"}
POINTS = {"rule": "points a day", "takes": 10}


def lose(rule: dict[str, object], hours: float, student: str = "b2") -> Decimal:
    """Return what a hand-in of 40 points out of 60 loses."""
    late = LateTable.model_validate(rule)
    deadline = find_deadline(CALENDAR, late, "soap", student)
    at = DUE + timedelta(hours=hours)
    return find_lateness(late, deadline, at, (Decimal(40), Decimal(60))).off


@pytest.mark.parametrize(
    ("rule", "hours", "off"),
    [
        (TENTH, 0, "0"),  # the due time itself is in time
        (TENTH, 0.01, "4"),  # 10 % of 40 for the day begun
        (TENTH, 24, "4"),
        (TENTH, 25, "8"),  # two days begun
        (TENTH, 7 * 24, "28"),  # seven days: 70 %
        (TENTH, 7 * 24 + 0.01, "40"),  # then zero
        (TENTH | {"of": "worth"}, 25, "12"),  # 20 % of 60
        (HALF, 100, "20"),
        (ONCE, 71, "12"),  # 30 % of 40, until the next lab is due after 72 h
        (ONCE, 73, "40"),
        (POINTS, 25, "20"),
        (POINTS, 200, "40"),  # never more than was earned
        (POINTS | {"grace_minutes": 15}, 0.25, "0"),
        (POINTS | {"grace_minutes": 15}, 0.26, "10"),
        ({"rule": "all"}, 0.01, "40"),
        ({"rule": "nothing"}, 100, "0"),
        ({"rule": "nothing"}, 30 * 24 + 1, "40"),  # handed back by then
    ],
)
def test_a_rule_takes_what_it_says(
    rule: dict[str, object], hours: float, off: str
) -> None:
    assert lose(rule, hours) == Decimal(off)


def test_an_extension_moves_the_days_as_well() -> None:
    assert lose(TENTH, 48, "a1") == 0
    assert lose(TENTH, 49, "a1") == 4
    assert lose(TENTH, 9 * 24, "a1") == 28
    assert lose(TENTH, 31 * 24, "a1") == 40


def test_the_sentence_says_both_times_and_the_rule() -> None:
    late = LateTable.model_validate(TENTH)
    deadline = find_deadline(CALENDAR, late, "soap", "b2")
    points = (Decimal(40), Decimal(60))
    said = find_lateness(late, deadline, DUE + timedelta(hours=25), points).sentence
    assert said == (
        "Late: 8 off (10 % of what was earned a day, 2 days begun); it came 2026-10-13 "
        "18:00+00:00, and was due 2026-10-12 17:00+00:00."
    )


def test_a_course_without_dates_knows_no_lateness() -> None:
    calendar = Calendar(ZoneInfo("UTC"), {}, {}, ["soap"])
    late = LateTable.model_validate(TENTH)
    deadline = find_deadline(calendar, late, "soap", "b2")
    assert find_lateness(late, deadline, DUE, (Decimal(1), Decimal(1))).off == 0
