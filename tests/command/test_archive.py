"""One archive of a course, and the same marks from it later."""

from __future__ import annotations

import json
import shutil
from datetime import timedelta
from pathlib import Path
from zipfile import ZipFile

import msgspec
import pytest
from msgspec.json import decode

from tests.support.command import mark_once, rows, run, snapshot
from tests.support.marked import answer_with_slips
from tests.support.recorded import make_record, name_record, take_all
from tests.support.soap import LAB, NOON, make_attempts, make_hand_in, name_sheet
from workbook.command.archive import list_versions
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.handin import HandIn


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of a course that was marked once."""
    folder = tmp_path_factory.mktemp("marked")
    mark_once(folder)
    return folder


@pytest.fixture
def course(tmp_path: Path, marked: Path) -> Path:
    """Return a copy of the course that was marked."""
    shutil.copytree(marked, tmp_path, dirs_exist_ok=True)
    return tmp_path / "course.toml"


def archive(course: Path, to: str, *more: str) -> str:
    words = ("--handins", "in", "--marks", "marks", "--to", to, *more)
    result = run("archive", course, *words)
    assert result.exit_code == 0
    return result.output


def test_an_archive_gives_the_same_marks_in_another_place(course: Path) -> None:
    archive(course, "year.zip", "--with-key")
    course.unlink()
    assert run("unpack", "year.zip", "--to", "later").exit_code == 0
    words = ("--handins", "later/handins", "--against", "later/marks", "--yes")
    result = run("mark", "later/course.toml", *words, "--to", "again")
    assert "Nothing changes for anybody." in result.output
    kept = {n: c for n, c in snapshot(Path("again")).items() if n.endswith("marks.csv")}
    assert kept.items() <= snapshot(Path("marks")).items()


def test_the_key_is_apart_unless_asked_for(course: Path) -> None:
    said = archive(course, "year.zip")
    assert "course.key apart" in said
    with ZipFile("year.zip") as packed:
        assert "course.key" not in packed.namelist()
        assert not [n for n in packed.namelist() if b"5a5a5a" in packed.read(n)]
    result = run("unpack", "year.zip", "--to", "one")
    assert "Put course.key into it." in result.output
    run("unpack", "year.zip", "--to", "two", "--key", "course.key")
    assert Path("two/course.key").read_bytes() == Path("course.key").read_bytes()


def test_it_can_be_read_without_the_workbook(course: Path) -> None:
    archive(course, "year.zip")
    with ZipFile("year.zip") as packed:
        names = set(packed.namelist())
        manifest = json.loads(packed.read("manifest.json"))
    assert {
        "course.toml",
        "roster.csv",
        f"labs/{LAB}/lab.toml",
        "handins/a1.handin.json",
        "marks/record.jsonl",
    } <= names
    assert manifest["versions"] == list_versions()
    assert set(manifest["files"]) == names - {"manifest.json"}


def test_the_same_course_gives_the_same_archive(course: Path) -> None:
    archive(course, "one.zip")
    archive(course, "two.zip")
    assert Path("one.zip").read_bytes() == Path("two.zip").read_bytes()


def test_a_service_s_record_gives_the_same_files_later(course: Path) -> None:
    record = make_record(Path("record.sqlite"))
    source = CourseSource(course)
    slips = answer_with_slips(source.case(name_sheet("b2")))
    files = [decode(path.read_bytes(), type=HandIn) for path in Path("in").iterdir()]
    take_all(record, [files[0], make_hand_in(source, "c3", slips)])
    # One answer comes after the hand-in, and one student hands in nothing.
    for student in ("c3", "b2"):
        (late,) = make_attempts([("dish", Typed("45.05 g"))])
        last = msgspec.structs.replace(late, id="last", at=NOON + timedelta(days=1))
        record.take(name_sheet(student), last)
    address = name_record(Path("record.sqlite"))
    run("mark", course, "--record", address, "--to", "then")
    words = ("--record", address, "--marks", "then", "--with-key", "--to", "year.zip")
    assert run("archive", course, *words).exit_code == 0
    course.unlink()
    Path("record.sqlite").unlink()
    unpacked = run("unpack", "year.zip", "--to", "later")
    assert "mark later/course.toml --record later/record --to" in unpacked.output
    again = ("--record", "later/record", "--to", "again")
    assert run("mark", "later/course.toml", *again).exit_code == 0
    assert snapshot(Path("again")) == snapshot(Path("then"))
    notes = [row["reason"] for row in rows(Path("again/problems.csv"))]
    assert "Answers that came after it was handed in are not marked: 1." in notes


def test_hand_ins_and_a_record_are_not_archived_at_once(course: Path) -> None:
    words = ("--handins", "in", "--record", "sqlite:///no.sqlite", "--to", "year.zip")
    result = run("archive", course, *words)
    assert result.exit_code == 2
    assert "Give either --handins or --record" in result.output


def test_an_archive_that_is_there_is_left_alone(course: Path) -> None:
    Path("year.zip").write_text("mine")
    result = run("archive", course, "--to", "year.zip")
    assert result.exit_code == 2
    assert Path("year.zip").read_text() == "mine"
