"""Sheets are issued, and a gate is opened, from the command line."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.support.command import rows, run, snapshot
from tests.support.soap import COURSE, LAB, STUDENTS, make_course, name_sheet
from workbook.checker.caller import Caller
from workbook.checker.token import read_token
from workbook.client.way import WAY_FILE, read_way
from workbook.draw.key import read_key
from workbook.errors import CheckerRefusedError
from workbook.solver.source import KEY_FILE, CourseSource

SERVICE = "https://chem.example/checker"


def test_issue_makes_a_folder_for_each_student_and_an_answer_book(
    tmp_path: Path,
) -> None:
    result = run("issue", make_course(tmp_path), "--to", "out")
    assert result.exit_code == 0
    assert sorted(path.name for path in Path("out/students").iterdir()) == [*STUDENTS]
    assert (tmp_path / "out/students/a1" / LAB / "postlab.ipynb").is_file()
    assert (tmp_path / "out/instructor/answers.html").is_file()
    assert {row["student"] for row in rows(Path("out/instructor/answers.csv"))} == {
        *STUDENTS
    }
    assert result.output.splitlines()[-1].startswith("Wrote 3 sheets to out/students")


def test_issue_makes_the_key_once_and_tells_to_keep_it(tmp_path: Path) -> None:
    course = make_course(tmp_path, has_key=False)
    first = run("issue", course, "--to", "one")
    key = (tmp_path / KEY_FILE).read_bytes()
    second = run("issue", course, "--to", "two")
    assert "keep it secret" in first.output
    assert "keep it secret" not in second.output
    assert (tmp_path / KEY_FILE).read_bytes() == key
    assert snapshot(Path("one")) == snapshot(Path("two"))


def test_issue_makes_no_key_when_it_can_not_write(tmp_path: Path) -> None:
    course = make_course(tmp_path, has_key=False)
    (tmp_path / "out").write_text("mine")
    assert run("issue", course, "--to", "out").exit_code == 2
    assert not (tmp_path / KEY_FILE).exists()


def test_issue_hands_out_no_key_and_no_hidden_value(tmp_path: Path) -> None:
    run("issue", make_course(tmp_path), "--to", "out")
    for content in snapshot(Path("out/students")).values():
        assert b"recovery" not in content
        assert b"5a5a5a" not in content


def test_issue_leaves_an_earlier_folder_as_it_was(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    run("issue", course, "--to", "out")
    before = snapshot(Path("out"))
    result = run("issue", course, "--to", "out")
    assert result.exit_code == 2
    assert "out is there already" in result.stderr
    assert snapshot(Path("out")) == before


def test_issue_sets_an_earlier_folder_aside_when_asked(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    run("issue", course, "--to", "out")
    mine = Path("out/students/a1") / LAB / "work.txt"
    mine.write_text("my work")
    result = run("issue", course, "--to", "out", "--replace")
    assert result.exit_code == 0
    assert "What was in out is now in out.before-1." in result.output
    kept = Path("out.before-1/students/a1") / LAB / "work.txt"
    assert kept.read_text() == "my work"


def test_issue_never_sets_aside_what_it_did_not_write(tmp_path: Path) -> None:
    result = run("issue", make_course(tmp_path), "--to", tmp_path, "--replace")
    assert result.exit_code == 2
    assert "also holds" in result.stderr


def test_open_lets_one_student_pass_and_says_what_comes_next(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    words = ("open", course, "--student", "a1", "--lab", LAB)
    first, second = run(*words), run(*words)
    assert first.exit_code == second.exit_code == 0
    assert "course.permits.toml: the gate" in first.output
    assert "Next: a1 presses" in first.output
    assert second.output.endswith("Nothing was written.\n")
    source = CourseSource(course)
    passed = {s for s in STUDENTS if source.is_permitted(name_sheet(s))}
    assert passed == {"a1"}


def test_open_refuses_a_student_who_is_not_there(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    result = run("open", course, "--student", "a12", "--lab", LAB)
    assert result.exit_code == 2
    assert result.output == "'a12' is not on the roster. Did you mean 'a1'?\n"
    assert not (tmp_path / "course.permits.toml").exists()


def test_extend_gives_one_student_more_time_that_marking_goes_by(
    tmp_path: Path,
) -> None:
    course = make_course(tmp_path)
    dates = f"[dates.{LAB}]\ndue = 2026-03-01T12:00:00\n"
    course.write_text(course.read_text("utf-8") + dates, encoding="utf-8")
    words = ("--due", "2026-03-09 12:00", "--reason", "ill")
    result = run("extend", course, "--student", "a1", "--lab", LAB, *words)
    assert result.exit_code == 0
    assert "is due for a1 at 2026-03-09 12:00:00+00:00. Next: tell a1" in result.output
    calendar = CourseSource(course).course.calendar
    assert calendar.due(LAB, "a1") == datetime(2026, 3, 9, 12, tzinfo=UTC)
    assert calendar.due(LAB, "b2") == datetime(2026, 3, 1, 12, tzinfo=UTC)


def issue_for_a_service(folder: Path, dates: str = "") -> Path:
    """Issue a course for a service, and return its file."""
    course = make_course(folder)
    course.write_text(course.read_text("utf-8") + dates, encoding="utf-8")
    words = ("--to", folder / "out", "--service", SERVICE)
    assert run("issue", course, *words).exit_code == 0
    return course


def test_issue_gives_each_folder_a_token_of_its_own_for_a_service(
    tmp_path: Path,
) -> None:
    key = read_key(issue_for_a_service(tmp_path).parent / KEY_FILE)
    for student in STUDENTS:
        folder = tmp_path / "out/students" / student / LAB
        way, now = read_way(folder), datetime.now(UTC)
        assert way is not None
        assert way.address == SERVICE
        assert read_token(key, COURSE, way.token, now) == Caller(COURSE, student, LAB)
        assert (folder / WAY_FILE).stat().st_mode & 0o777 == 0o600


def test_a_token_ends_a_week_after_the_lab_is_handed_back(tmp_path: Path) -> None:
    closed = datetime.now(UTC).replace(microsecond=0) + timedelta(days=3)
    dates = f"[dates.{LAB}]\nclosed = {closed.isoformat()}\n"
    key = read_key(issue_for_a_service(tmp_path, dates).parent / KEY_FILE)
    way = read_way(tmp_path / "out/students/a1" / LAB)
    assert way is not None
    last = closed + timedelta(days=6, hours=23)
    assert read_token(key, COURSE, way.token, last).student == "a1"
    with pytest.raises(CheckerRefusedError, match="is over"):
        read_token(key, COURSE, way.token, closed + timedelta(days=7))


def test_issue_refuses_an_address_that_leads_nowhere(tmp_path: Path) -> None:
    words = ("--to", "out", "--service", "chem.example")
    result = run("issue", make_course(tmp_path), *words)
    assert result.exit_code == 2
    assert "does not begin with http" in result.output
    assert not (tmp_path / "out").exists()


def test_without_a_service_no_folder_holds_a_token(tmp_path: Path) -> None:
    run("issue", make_course(tmp_path), "--to", tmp_path / "out")
    assert not list(tmp_path.rglob(WAY_FILE))
