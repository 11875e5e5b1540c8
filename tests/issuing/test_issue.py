"""From a course and its roster to a folder for every student and lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from tests.support.kiln import LAB as KILN_LAB
from tests.support.kiln import make_kiln_course
from tests.support.soap import LAB, STUDENTS, make_course, name_sheet
from workbook.client.place import read_sheet
from workbook.issuing.issue import issue_sheets
from workbook.labfile.roster import read_roster
from workbook.solver.source import CourseSource
from workbook.wire.sheet import OwnStep

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.roster import Student


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
    assert found == [
        LAB,
        "postlab.ipynb",
        "prelab.ipynb",
        "scheme-neutralisation.svg",
        "scheme.svg",
        "sheet.json",
    ]


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


def test_nothing_is_issued_of_a_reading_that_students_bring(tmp_path: Path) -> None:
    source = CourseSource(make_kiln_course(tmp_path))
    (page, _) = issue_sheets(tmp_path / "out", source, roster_of(source))
    shown = {value.name: value.shown for value in page.drawn}
    assert shown["crucible"] == "the student's own"
    assert shown["oven"].endswith(" °C")
    sheet = read_sheet(tmp_path / "out" / "k1" / KILN_LAB)
    assert sheet is not None
    # Allowed for with its window, and shown in no other way.
    step = sheet.step("crucible")
    assert isinstance(step, OwnStep)
    assert "to 0.01 g, between 24.00 and 26.00 g" in step.allowance
    stood_in = source.cases(KILN_LAB, ["k1"])[0].values["crucible"]
    assert f"{stood_in:.2f}".encode() not in msgspec.json.encode(sheet)


def test_a_section_reads_of_its_own_bottles_in_its_notebooks(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    bottle = (
        f'[[bottles]]\nlab = "{LAB}"\nsection = "evening"\nof = "lye.mass_fraction"\n'
        f'value = "17.5 %"\nsource = "label"\n'
    )
    course.write_text(course.read_text(encoding="utf-8") + bottle, encoding="utf-8")
    source = CourseSource(course)
    pages = list(issue_sheets(tmp_path / "out", source, roster_of(source)))
    own, other = (
        (tmp_path / "out" / student / LAB / "prelab.ipynb").read_text(encoding="utf-8")
        for student in ("b2", "a1")
    )
    assert "17.5 % by mass" in own
    assert "17.5 % by mass" not in other
    assert [page.student.id for page in pages] == list(STUDENTS)
