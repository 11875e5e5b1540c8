"""One archive of a course, and the same marks from it later."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.support.command import mark_once, run, snapshot
from tests.support.soap import LAB
from workbook.command.archive import list_versions


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


def test_an_archive_that_is_there_is_left_alone(course: Path) -> None:
    Path("year.zip").write_text("mine")
    result = run("archive", course, "--to", "year.zip")
    assert result.exit_code == 2
    assert Path("year.zip").read_text() == "mine"
