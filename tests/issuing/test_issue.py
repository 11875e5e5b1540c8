"""From a course and its roster to a folder for every student and lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.soap import LAB, STUDENTS, name_sheet
from workbook.client.place import read_sheet
from workbook.issuing.issue import issue_sheets
from workbook.labfile.roster import read_roster

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.roster import Student
    from workbook.solver.source import CourseSource


def roster_of(source: CourseSource) -> tuple[Student, ...]:
    return read_roster(source.course.roster)


def test_each_student_gets_the_folder_of_their_own_sheet(
    tmp_path: Path, source: CourseSource
) -> None:
    pages = list(issue_sheets(tmp_path, source, roster_of(source)))
    assert [page.student.id for page in pages] == list(STUDENTS)
    for student in STUDENTS:
        assert read_sheet(tmp_path / student / LAB) == source.sheet(name_sheet(student))


def test_nothing_else_stands_in_a_students_folder(
    tmp_path: Path, source: CourseSource
) -> None:
    list(issue_sheets(tmp_path, source, roster_of(source)))
    found = sorted(path.name for path in (tmp_path / "a1").rglob("*"))
    assert found == [LAB, "postlab.ipynb", "prelab.ipynb", "sheet.json"]


def test_values_depend_on_nobody_else(tmp_path: Path, source: CourseSource) -> None:
    roster = roster_of(source)
    list(issue_sheets(tmp_path / "all", source, roster))
    list(issue_sheets(tmp_path / "turned", source, roster[::-1]))
    list(issue_sheets(tmp_path / "one", source, roster[1:2]))
    sheets = {
        (tmp_path / run / "b2" / LAB / "sheet.json").read_bytes()
        for run in ("all", "turned", "one")
    }
    assert len(sheets) == 1


def test_students_get_values_of_their_own(source: CourseSource) -> None:
    cases = source.cases(LAB, STUDENTS)
    assert len({tuple(sorted(each.values.items())) for each in cases}) == len(STUDENTS)
