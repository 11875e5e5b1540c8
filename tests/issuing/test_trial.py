"""A course of one person and one lab, to try the lab."""

from __future__ import annotations

import stat
from typing import TYPE_CHECKING

from tests.support.soap import LAB, LAB_FOLDER
from workbook.issuing.trial import CHECKER_FOLDER, TRIAL_STUDENT, make_trial_course
from workbook.labfile.course import read_course
from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path


def test_a_trial_serves_its_one_sheet(tmp_path: Path) -> None:
    source = CourseSource(make_trial_course(tmp_path, LAB_FOLDER))
    sheet = source.sheet(SheetId("trial", LAB, 1, TRIAL_STUDENT))
    assert sheet.title == "Hard soap from olive oil"


def test_two_trials_have_values_of_their_own(tmp_path: Path) -> None:
    sheets = []
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        source = CourseSource(make_trial_course(tmp_path / name, LAB_FOLDER))
        sheets.append(source.sheet(SheetId("trial", LAB, 1, TRIAL_STUDENT)))
    assert sheets[0] != sheets[1]


def test_only_the_owner_can_read_the_trials_key(tmp_path: Path) -> None:
    make_trial_course(tmp_path, LAB_FOLDER)
    mode = (tmp_path / CHECKER_FOLDER / KEY_FILE).stat().st_mode
    assert stat.S_IMODE(mode) == 0o600


def test_a_folder_of_any_name_is_found_again(tmp_path: Path) -> None:
    strange = tmp_path / 'a "b" \\ ü 油' / "lab"
    course = read_course(make_trial_course(tmp_path, strange))
    assert course.folders == {"lab": strange}
