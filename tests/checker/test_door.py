"""The way in for commands."""

from __future__ import annotations

import subprocess
import sys
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from tests.support.recorded import list_attempts, make_record, name_record
from tests.support.soap import COURSE, LAB
from workbook.checker import door
from workbook.checker.caller import Caller
from workbook.checker.door import make_sheet_token, reach_record
from workbook.checker.token import read_token
from workbook.draw.key import CourseKey
from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path

KEY = CourseKey(bytes(32))


def test_a_record_is_reached_by_its_address(tmp_path: Path) -> None:
    make_record(tmp_path / "record.sqlite")
    record = reach_record(name_record(tmp_path / "record.sqlite"))
    assert list_attempts(record, COURSE, LAB) == {}


def test_a_record_that_is_not_there_is_told_and_not_made(tmp_path: Path) -> None:
    with pytest.raises(TaskError):
        reach_record(name_record(tmp_path / "record.sqlite"))
    assert not list(tmp_path.iterdir())


def test_a_token_names_student_and_lab() -> None:
    now = datetime.now(UTC)
    token = make_sheet_token(KEY, (COURSE, "a1", LAB), now + timedelta(days=1))
    assert read_token(KEY, COURSE, token, now) == Caller(COURSE, "a1", LAB)


def test_without_the_extra_the_command_says_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(name: str) -> None:
        raise ModuleNotFoundError(name, name="sqlalchemy.orm")

    monkeypatch.setattr(door, "import_module", fail)
    with pytest.raises(TaskError, match=r"pip install 'lab-workbook\[service\]'"):
        reach_record("sqlite:///record.sqlite")


def test_a_module_of_ours_that_is_missing_is_no_matter_of_extras(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(name: str) -> None:
        raise ModuleNotFoundError(name, name="workbook.checker.record")

    monkeypatch.setattr(door, "import_module", fail)
    with pytest.raises(ModuleNotFoundError):
        reach_record("sqlite:///record.sqlite")


def test_marking_files_loads_no_database() -> None:
    program = "import sys, workbook.command.mark; print('sqlalchemy' in sys.modules)"
    command = (sys.executable, "-c", program)
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
