"""The folder to start a course from."""

from __future__ import annotations

import re
import shutil
import typing
from importlib.resources import files

import pytest
from pydantic import BaseModel

import workbook.command
from tests.support.soap import LAB_FOLDER
from workbook.command.course import prepare_course
from workbook.command.newcourse import start_course
from workbook.errors import TaskError
from workbook.labfile.course import CourseFile

if typing.TYPE_CHECKING:
    from pathlib import Path

TEMPLATE = (files(workbook.command) / "course.toml").read_text(encoding="utf-8")
DEMONSTRATION = LAB_FOLDER.parent / "course.toml"


def keys_of(model: type[BaseModel]) -> set[str]:
    """Return every key of a table and of the tables below it."""
    found: set[str] = set()
    for name, field in model.model_fields.items():
        found.add(name)
        waiting: list[object] = [field.annotation]
        while waiting:
            each = waiting.pop()
            waiting += typing.get_args(each)
            if isinstance(each, type) and issubclass(each, BaseModel):
                found |= keys_of(each)
    return found


@pytest.mark.parametrize("text", [TEMPLATE, DEMONSTRATION.read_text(encoding="utf-8")])
def test_every_setting_is_explained(text: str) -> None:
    written = set(re.findall(r"^(?:# )?(\w+) +=", text, flags=re.MULTILINE))
    headed = re.findall(r"^(?:# )?\[+([\w.-]+)\]", text, flags=re.MULTILINE)
    tables = {part for head in headed for part in head.split(".")}
    assert keys_of(CourseFile) - written - tables == set()


def test_a_new_course_needs_only_its_lab(tmp_path: Path) -> None:
    start_course(tmp_path / "salt-1")
    shutil.copytree(LAB_FOLDER, tmp_path / "salt-1" / "first-lab")
    (student,) = prepare_course(tmp_path / "salt-1" / "course.toml")
    assert student.id == "student-1"


def test_its_examples_can_be_used_as_they_stand(tmp_path: Path) -> None:
    start_course(tmp_path / "salt-1")
    shutil.copytree(LAB_FOLDER, tmp_path / "salt-1" / "first-lab")
    course = tmp_path / "salt-1" / "course.toml"
    text = course.read_text(encoding="utf-8").replace('"k3f8"', '"student-1"')
    used = re.sub(r"^# (\[|[\w\".]+ +=)", r"\1", text, flags=re.MULTILINE)
    course.write_text(used, encoding="utf-8")
    roster = course.with_name("roster.csv")
    roster.write_text("student,name,section\nstudent-1,First,evening\n", "utf-8")
    prepare_course(course)
    assert used != text


def test_a_folder_that_is_there_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "salt-1").mkdir()
    (tmp_path / "salt-1" / "mine").write_text("")
    with pytest.raises(TaskError, match="is there already"):
        start_course(tmp_path / "salt-1")


def test_a_name_that_no_course_can_have_is_told(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="letters, digits"):
        start_course(tmp_path / "salt & soap")
