"""``workbook mark``: what it writes beside the tables, and what persons decided."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

from tests.support.command import hand_in_all, rows, run
from tests.support.soap import LAB, make_course
from workbook.marking.override import OVERRIDES_FILE, Override, add_override
from workbook.marking.record import read_record


def decide(folder: Path, student: str, step: str, points: str) -> None:
    """Give points by hand."""
    override = Override(
        at=datetime.now(UTC),
        student=student,
        lab=LAB,
        step=step,
        points=Decimal(points),
        reason="Says why the yield is low.",
        marker="R. Eddy",
    )
    add_override(folder / OVERRIDES_FILE, override)


def mark(folder: Path, to: str) -> dict[str, str]:
    """Mark the first student, and return the row of the table."""
    course = make_course(folder)
    hand_in_all(course, folder / "in", ["a1"])
    assert run("mark", course, "--handins", "in", "--to", to).exit_code == 0
    return next(row for row in rows(Path(to, "marks.csv")) if row["student"] == "a1")


def test_points_by_hand_count_in_every_later_marking(tmp_path: Path) -> None:
    # 59 by the rules, and 2 for the discussion by a person.
    decide(tmp_path, "a1", "discussion", "2")
    first, second = mark(tmp_path, "one"), mark(tmp_path, "two")
    assert (first["points"], second["points"]) == ("61", "61")
    assert "up to 2 more (observations)." in first["remark"]
    steps = {row["step"]: row for row in rows(Path("one/steps.csv"))}
    assert steps["discussion"]["marker"] == "R. Eddy"
    assert steps["discussion"]["reason"].startswith("Says why the yield is low. (given")


def test_a_decision_that_finds_nothing_is_told_and_breaks_nothing(
    tmp_path: Path,
) -> None:
    decide(tmp_path, "zz", "discussion", "2")
    assert mark(tmp_path, "one")["points"] == "59"
    (told,) = rows(Path("one/problems.csv"))
    assert told["kind"] == "by hand"
    assert "zz / olive-oil-soap / discussion" in told["reason"]


def test_the_record_holds_what_the_tables_say(tmp_path: Path) -> None:
    row = mark(tmp_path, "one")
    (recorded,) = read_record(Path("one"))
    assert (recorded.student, recorded.points) == ("a1", Decimal(row["points"]))
    assert len(recorded.steps) == len(rows(Path("one/steps.csv")))


def test_a_list_of_times_decides_what_is_late_and_staff_are_told_of_clocks(
    tmp_path: Path,
) -> None:
    course = make_course(tmp_path)
    # Written at 15:00 by its own clock, received an hour before that.
    more = f'[dates.{LAB}]\ndue = 2026-03-02T14:30:00\n[marks.late]\nrule = "all"\n'
    course.write_text(course.read_text(encoding="utf-8") + more, encoding="utf-8")
    hand_in_all(course, tmp_path / "in", ["a1"])
    times = tmp_path / "times.csv"
    times.write_text("file,received\na1.handin.json,2026-03-02 14:00\n")
    words = ("mark", course, "--handins", "in")
    run(*words, "--to", "own")
    run(*words, "--to", "listed", "--received", times)
    assert rows(Path("own/marks.csv"))[0]["points"] == "0"
    row = rows(Path("listed/marks.csv"))[0]
    assert (row["points"], row["handed_in"]) == ("59", "2026-03-02T14:00:00+00:00")
    (told,) = rows(Path("listed/problems.csv"))
    said = "By its own time it was written after it came in."
    assert (told["kind"], told["reason"]) == ("look at", said)
    assert said not in row["remark"]


def test_one_time_counts(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    (tmp_path / "times.csv").write_text("file,received\n")
    words = ("mark", course, "--handins", "in", "--to", "marks")
    result = run(*words, "--received", "times.csv", "--file-times")
    assert result.exit_code == 2
    assert "one time counts" in result.stderr
