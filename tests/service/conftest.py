"""A course that is issued, and what one of its students may not see."""

from __future__ import annotations

import hashlib
import shutil
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.support.command import run as run_command
from tests.support.mistake import WRONG_NUMBERS
from tests.support.notebook_run import ROOT
from tests.support.secret import Secrets, follow, gather_secrets
from tests.support.soap import LAB
from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from workbook.judge.case import Case


@pytest.fixture(scope="session")
def sheet_id() -> SheetId:
    """
    Name the student.

    Under the course's key, which is always the same, the values of this one share no
    three figures with what the sheet prints, nor four with what stands in any kernel,
    and only the two volumes that are read have fewer than four. Where a change to the
    lab lets two numbers meet, take another student.
    """
    return SheetId("saltmarsh-autumn", LAB, 1, "j5v6")


@pytest.fixture(scope="session")
def course(sheet_id: SheetId, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Issue the demonstration course under a key that is always the same, gate open."""
    folder = tmp_path_factory.mktemp("teacher") / "course"
    exercises = ROOT / "exercises"
    shutil.copytree(exercises, folder, ignore=shutil.ignore_patterns("*.key"))
    key = hashlib.sha256(b"salt").hexdigest()
    (folder / KEY_FILE).write_text(key + "\n", encoding="ascii")
    issued = run_command("issue", folder / "course.toml", "--to", folder / "issued")
    assert issued.exit_code == 0, issued.output
    names = ("--student", sheet_id.student, "--lab", LAB)
    opened = run_command("open", folder / "course.toml", *names)
    assert opened.exit_code == 0, opened.output
    return folder / "course.toml"


@pytest.fixture(scope="session")
def case(course: Path, sheet_id: SheetId) -> Case:
    """Return the student's copy, with everything that is hidden."""
    return CourseSource(course).case(sheet_id)


@pytest.fixture(scope="session")
def secrets(course: Path, sheet_id: SheetId, case: Case) -> Secrets:
    """Return what is hidden, what follows from the wrong answers among it."""
    typed = {step: float(number) for step, (number, _) in WRONG_NUMBERS.items()}
    found = gather_secrets(course, sheet_id)
    return replace(found, values=(*found.values, *follow(case, typed)))


@pytest.fixture(scope="session")
def folder(
    course: Path, sheet_id: SheetId, tmp_path_factory: pytest.TempPathFactory
) -> Path:
    """Give the student's folder away from the course, as a student has it."""
    issued = course.parent / "issued" / "students" / sheet_id.student / LAB
    return Path(shutil.copytree(issued, tmp_path_factory.mktemp("student") / LAB))
