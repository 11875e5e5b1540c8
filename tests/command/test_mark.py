"""``workbook mark``: what it writes beside the tables, and what persons decided."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.json import decode

from tests.support.command import hand_in_all, rows, run
from tests.support.marked import answer_with_slips
from tests.support.recorded import make_record, name_record, take_all
from tests.support.soap import (
    LAB,
    make_attempts,
    make_course,
    make_hand_in,
    name_sheet,
    write_hand_in,
)
from workbook.command import mark as command
from workbook.marking.gather import gather
from workbook.marking.override import OVERRIDES_FILE, Override, add_override
from workbook.marking.record import read_record
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.handin import HandIn

if TYPE_CHECKING:
    from collections.abc import Iterable

    import pytest

    from workbook.marking.acceptance import Expected
    from workbook.marking.entry import Entry
    from workbook.marking.gather import Gathered
    from workbook.marking.received import Clock


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


def test_a_hand_in_that_changes_while_the_class_is_marked_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1", "b2"])

    def gather_and_change(
        entries: Iterable[Entry], expected: Expected, clock: Clock
    ) -> Gathered:
        found = gather(entries, expected, clock)
        shutil.copy(tmp_path / "in/a1.handin.json", tmp_path / "in/b2.handin.json")
        return found

    monkeypatch.setattr(command, "gather", gather_and_change)
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 1
    assert "Marked 1 of 2 files." in result.output
    found = {row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))}
    assert found == {"a1": "59", "b2": "0", "c3": "0"}
    (told,) = rows(Path("marks/problems.csv"))
    assert (told["file"], told["kind"]) == ("b2.handin.json", "refused")
    assert told["reason"].startswith("it was changed while the class was marked")


def test_one_time_counts(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    (tmp_path / "times.csv").write_text("file,received\n")
    words = ("mark", course, "--handins", "in", "--to", "marks")
    result = run(*words, "--received", "times.csv", "--file-times")
    assert result.exit_code == 2
    assert "one time counts" in result.stderr


def test_a_record_is_marked_to_the_marks_of_the_files(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    source, record = CourseSource(course), make_record(tmp_path / "record.sqlite")
    hand_in_all(course, tmp_path / "in", ["a1"])
    slips = answer_with_slips(source.case(name_sheet("b2")))
    write_hand_in(make_hand_in(source, "b2", slips), tmp_path / "in/b2.handin.json")
    files = (tmp_path / "in").iterdir()
    take_all(record, (decode(path.read_bytes(), type=HandIn) for path in files))
    address = name_record(tmp_path / "record.sqlite")
    one = run("mark", course, "--handins", tmp_path / "in", "--to", tmp_path / "one")
    two = run("mark", course, "--record", address, "--to", tmp_path / "two")
    assert (one.exit_code, two.exit_code) == (0, 0), two.output
    assert "Marked 2 of 2 sheets of the record." in two.output
    for name in ("marks.csv", "steps.csv", "problems.csv"):
        told = [rows(tmp_path / to / name) for to in ("one", "two")]
        assert [leave_file(each) for each in told[0]] == [
            leave_file(each) for each in told[1]
        ]


def leave_file(row: dict[str, str]) -> dict[str, str]:
    """Return a row without the name of the file, which a record has not."""
    return {key: value for key, value in row.items() if key != "file"}


def test_what_was_never_handed_in_is_marked_from_the_record_with_a_remark(
    tmp_path: Path,
) -> None:
    course = make_course(tmp_path)
    record = make_record(tmp_path / "record.sqlite")
    (attempt,) = make_attempts([("dish", Typed("45.05 g"))])
    record.take(name_sheet("c3"), attempt)
    address = name_record(tmp_path / "record.sqlite")
    done = run("mark", course, "--record", address, "--to", tmp_path / "out")
    assert done.exit_code == 0
    (row,) = (r for r in rows(tmp_path / "out/marks.csv") if r["student"] == "c3")
    assert row["remark"].startswith("It was not handed in")
    assert datetime.fromisoformat(row["handed_in"]) == attempt.at


def test_files_and_a_record_are_not_marked_at_once(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    words = ("--handins", tmp_path / "in", "--record", "sqlite:///no.sqlite")
    for chosen in ((), words):
        done = run("mark", course, *chosen, "--to", tmp_path / "out")
        assert done.exit_code == 2
        assert "Give either --handins or --record" in done.output
    done = run("mark", course, *words[2:], "--file-times", "--to", tmp_path / "out")
    assert "the service's own times" in done.output
    done = run("mark", course, *words[2:], "--to", tmp_path / "out")
    assert done.exit_code == 2
    assert not (tmp_path / "out").exists()


def test_a_record_without_an_answer_is_told(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    make_record(tmp_path / "record.sqlite")
    address = name_record(tmp_path / "record.sqlite")
    done = run("mark", course, "--record", address, "--to", tmp_path / "out")
    assert done.exit_code == 2
    assert "holds no answer to a lab of this course" in done.output


def test_points_by_hand_that_found_no_step_are_told_at_once(tmp_path: Path) -> None:
    decide(tmp_path, "a1", "discusion", "2")
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", ["a1"])
    marked = run("mark", course, "--handins", "in", "--to", "marks")
    # The marks are right without it: nothing stops a course at it.
    assert marked.exit_code == 0
    said = f"What R. Eddy gave for a1 / {LAB} / discusion found no such step"
    assert said in marked.stderr
    assert said in Path("marks/problems.csv").read_text("utf-8")
