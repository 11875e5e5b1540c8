"""A course gathered from wherever its parts lie."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
import tomlkit

from tests.support.soap import LAB, make_course
from workbook.command.bundle import bundle_labs, bundle_people, rewrite_course
from workbook.errors import TaskError
from workbook.labfile.course import read_course

if TYPE_CHECKING:
    from pathlib import Path


def test_labs_come_with_their_notebooks_and_nothing_hidden(tmp_path: Path) -> None:
    files = bundle_labs(read_course(make_course(tmp_path)))
    assert {f"labs/{LAB}/lab.toml", f"labs/{LAB}/prelab.ipynb"} <= files.keys()
    assert not [name for name in files if "/." in name]


def test_the_key_comes_only_when_asked(tmp_path: Path) -> None:
    course = read_course(make_course(tmp_path))
    assert set(bundle_people(course, has_key=False)) == {"roster.csv"}
    assert set(bundle_people(course, has_key=True)) == {"roster.csv", "course.key"}
    (tmp_path / "course.key").unlink()
    with pytest.raises(TaskError, match=r"course\.key can't be read"):
        bundle_people(course, has_key=True)


def test_a_roster_of_several_files_and_decisions_come_along(tmp_path: Path) -> None:
    path = make_course(tmp_path)
    text = path.read_text(encoding="utf-8").replace("roster.csv", "list")
    path.write_text(text, encoding="utf-8")
    (tmp_path / "list").mkdir()
    (tmp_path / "list" / "users.csv").write_text("x")
    (tmp_path / "course.overrides.csv").write_text("y")
    found = bundle_people(read_course(path), has_key=False)
    assert found == {"roster/users.csv": b"x", "course.overrides.csv": b"y"}


def test_a_rewritten_course_keeps_its_comments(tmp_path: Path) -> None:
    path = make_course(tmp_path)
    path.write_text("# Ours.\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    text = tomlkit.dumps(rewrite_course(read_course(path)))
    assert text.startswith("# Ours.\n")
    assert f'"labs/{LAB}"' in text
