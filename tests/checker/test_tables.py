"""Times go into the tables with a zone, and come back with one."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy.dialects import sqlite

from tests.support.soap import NOON
from workbook.checker.tables import ATTEMPT, HAND_IN, UtcTime

SQLITE = sqlite.dialect()


def test_a_time_of_another_zone_is_kept_as_utc() -> None:
    berlin = datetime(2026, 3, 2, 13, tzinfo=timezone(timedelta(hours=1)))
    kept = UtcTime().process_bind_param(berlin, SQLITE)
    assert kept == NOON
    assert kept is not None
    assert kept.tzinfo is UTC


def test_a_time_without_a_zone_comes_back_as_utc() -> None:
    plain = NOON.replace(tzinfo=None)
    assert UtcTime().process_result_value(plain, SQLITE) == NOON
    assert UtcTime().process_result_value(None, SQLITE) is None


def test_a_time_without_a_zone_is_not_kept() -> None:
    with pytest.raises(ValueError, match="without its zone"):
        UtcTime().process_bind_param(NOON.replace(tzinfo=None), SQLITE)


@pytest.mark.parametrize(("table", "last"), [(ATTEMPT, "id"), (HAND_IN, "digest")])
def test_nothing_is_kept_twice(table: object, last: str) -> None:
    (once,) = [
        each
        for each in getattr(table, "constraints", ())
        if str(each.name).endswith("_once")
    ]
    names = [column.name for column in once.columns]
    assert names == ["course", "lab", "revision", "student", last]
