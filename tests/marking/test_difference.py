"""An instructor's list against what students noted, from the files to the table."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.command import rows, run
from tests.support.kiln import (
    CHANGE,
    LAB,
    READINGS,
    RIGHT,
    make_kiln_course,
    write_kiln_hand_in,
)
from workbook.wire.answer import Noted

ALL = [*READINGS.items(), *RIGHT.items()]


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a course in which one student changed a reading, and one noted none."""
    monkeypatch.chdir(tmp_path)
    made = make_kiln_course(tmp_path)
    change = ("crucible", CHANGE), ("crucible", Noted("25.00 g"))
    write_kiln_hand_in(made, "k1", [*ALL, *change])
    write_kiln_hand_in(made, "k2", [*ALL[1:], ("crucible", Noted("24.5 g"))])
    return made


def mark(course: Path, listed: str = "") -> int:
    """Mark the hand-ins, and return the exit status."""
    Path("list.csv").write_text(f"student,reading,value\n{listed}", encoding="utf-8")
    words = ("--readings", "list.csv") if listed else ()
    return run("mark", course, "--handins", "handins", "--to", "m", *words).exit_code


def test_a_list_that_agrees_leaves_nothing_to_look_at(course: Path) -> None:
    assert (
        mark(
            course,
            "k1,crucible,24.55 g\nk1,chalk_taken,2.50 g\nk2,chalk_taken,2500 mg\n",
        )
        == 0
    )
    assert rows(Path("m/differences.csv")) == []


def test_each_difference_is_listed_for_a_person(course: Path) -> None:
    listed = "k1,crucible,24.50 g\nk2,crucible,24.50 g\nk1,chalk_taken,2.50 g\n"
    assert mark(course, listed) == 1
    found = rows(Path("m/differences.csv"))
    assert [tuple(row.values()) for row in found] == [
        ("k1", LAB, "crucible", "24.55 g", "24.50 g", "0.05 g",
         "The list and the student differ."),
        ("k2", LAB, "crucible", "", "24.50 g", "",
         "The student noted none that could stand."),
        ("k2", LAB, "chalk_taken", "2.50 g", "", "",
         "The list has none for this student."),
    ]  # fmt: skip


def test_no_mark_changes_by_a_list(course: Path) -> None:
    assert mark(course) == 0
    without = Path("m/marks.csv").read_bytes()
    assert not Path("m/differences.csv").exists()
    Path("m").rename("earlier")
    mark(course, "k1,crucible,24.50 g\n")
    assert Path("m/marks.csv").read_bytes() == without


def test_a_change_stands_in_the_tables_with_its_reason(course: Path) -> None:
    mark(course)
    steps = {(r["student"], r["step"]): r for r in rows(Path("m/steps.csv"))}
    crucible = steps["k1", "crucible"]
    assert (crucible["typed"], crucible["outcome"]) == ("24.55 g", "noted")
    assert crucible["reason"].endswith(
        "Changed from '24.50 g' to '24.55 g'; the reason given: 'read the display "
        "wrongly'."
    )
    (remark, _) = (row["remark"] for row in rows(Path("m/marks.csv")))
    assert "Own readings changed: crucible." in remark


def test_marks_follow_from_the_readings_that_stand(course: Path) -> None:
    mark(course)
    steps = {(r["student"], r["step"]): r for r in rows(Path("m/steps.csv"))}
    assert steps["k1", "lime_mass"]["outcome"] == "wrong"
    assert steps["k1", "theoretical_yield"]["outcome"] == "right"
    assert steps["k2", "crucible"]["outcome"] == "not noted"
    assert steps["k2", "lime_mass"]["outcome"] == "early"
    assert steps["k2", "theoretical_yield"]["outcome"] == "right"
    assert steps["k2", "lime_mass"]["points"] == "0"


def test_a_mistake_in_the_list_stops_the_command(course: Path) -> None:
    assert mark(course, "k1,crucible,24.5 g\n") == 2
    assert not Path("m").exists()
