"""Whose time of a hand-in counts."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import pytest

from workbook.errors import AuthorError
from workbook.marking.entry import StrangeEntry
from workbook.marking.received import Clock, read_received

if TYPE_CHECKING:
    from pathlib import Path

AT = datetime(2026, 10, 12, 17, tzinfo=UTC)
ENTRY = StrangeEntry("morning/a1.handin.json", "", AT)


def test_without_a_list_only_the_hand_in_s_own_time_is_known() -> None:
    assert Clock().read(ENTRY) is None
    assert Clock().remark(AT, None) == ""


@pytest.mark.parametrize("name", ["morning/a1.handin.json", "a1.handin.json"])
def test_a_list_names_a_file_by_its_path_or_its_name(name: str) -> None:
    assert Clock(listed={name: AT}).read(ENTRY) == AT


def test_a_file_that_a_list_leaves_out_is_remarked_on() -> None:
    clock = Clock(listed={}, trusts_files=False)
    assert clock.read(ENTRY) is None
    assert clock.remark(AT, None) == "No other time is known than its own."


def test_the_file_s_own_time_counts_only_when_asked() -> None:
    assert Clock(trusts_files=True).read(ENTRY) == AT


def test_a_clock_that_runs_ahead_is_remarked_on() -> None:
    said = "By its own time it was written after it came in."
    assert Clock().remark(AT + timedelta(minutes=11), AT) == said
    assert Clock().remark(AT + timedelta(minutes=9), AT) == ""


def test_a_list_s_times_are_those_of_the_course_s_zone(tmp_path: Path) -> None:
    path = tmp_path / "times.csv"
    path.write_text("file,received\na.json,2026-10-12 18:00\nb.json,2026-10-12T17Z\n")
    # London is an hour ahead of UTC in summer.
    found = read_received(path, ZoneInfo("Europe/London"))
    assert found == {"a.json": AT, "b.json": AT}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "1: the columns are file and received."),
        ("file,received\na.json,soon\n", "2: 'a.json,soon' is no file with a time"),
        ("file,received\na.json\n", "2: 'a.json' is no file with a time"),
    ],
)
def test_a_mistake_in_a_list_is_told_with_its_line(
    tmp_path: Path, text: str, said: str
) -> None:
    path = tmp_path / "times.csv"
    path.write_text(text)
    with pytest.raises(AuthorError) as caught:
        read_received(path, UTC)
    assert said in str(caught.value)
