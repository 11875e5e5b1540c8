"""
A roster from the files of OneRoster, versions 1.1 and 1.2.

The heads are those of the standard's tables: 1EdTech OneRoster CSV Tables 1.1.1 and CSV
Binding 1.2.1, both of 22 August 2023. Names are invented.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, make_course
from workbook.errors import AuthorError
from workbook.labfile.enrolment import read_students
from workbook.labfile.roster import Student
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from pathlib import Path

USERS_11 = (
    "sourcedId,status,dateLastModified,enabledUser,orgSourcedIds,role,username,userIds,"
    "givenName,familyName,middleName,identifier,email,sms,phone,agentSourcedIds,grades,"
    "password\n"
    "u2,,,true,o1,student,bt,,Bram,Teal,,,,,,,,\n"
    "u1,,,true,o1,student,am,,Ada,Moss,,,,,,,,\n"
    "u9,,,true,o1,teacher,re,,Rosa,Eddy,,,,,,,,\n"
)
USERS_12 = (
    "sourcedId,status,dateLastModified,enabledUser,username,userIds,givenName,"
    "familyName,middleName,identifier,email,sms,phone,agentSourcedIds,grades,password\n"
    "u1,active,2026-09-01T00:00:00.000Z,true,am,,Ada,Moss,,,,,,,,\n"
    "u2,active,2026-09-01T00:00:00.000Z,true,bt,,Bram,Teal,,,,,,,,\n"
    "u9,active,2026-09-01T00:00:00.000Z,true,re,,Rosa,Eddy,,,,,,,,\n"
)
ENROLLMENTS = (
    "sourcedId,status,dateLastModified,classSourcedId,schoolSourcedId,userSourcedId,"
    "role,primary,beginDate,endDate\n"
    "e1,,,c-m,o1,u1,student,false,,\n"
    "e2,,,c-e,o1,u2,student,false,,\n"
    "e3,,,c-e,o1,u9,teacher,true,,\n"
)
CLASSES = (
    "sourcedId,status,dateLastModified,title,grades,courseSourcedId,classCode,classType,"
    "location,schoolSourcedId,termSourcedIds,subjects,subjectCodes,periods\n"
    "c-m,,,morning,,k1,,scheduled,,o1,t1,,,\n"
    "c-e,,,evening,,k1,,scheduled,,o1,t1,,,\n"
)
BOTH = (Student("u1", "Ada Moss", "morning"), Student("u2", "Bram Teal", "evening"))


def write(folder: Path, users: str = USERS_11, enrollments: str = ENROLLMENTS) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / "users.csv").write_text(users, encoding="utf-8")
    (folder / "enrollments.csv").write_text(enrollments, encoding="utf-8")
    (folder / "classes.csv").write_text(CLASSES, encoding="utf-8")
    return folder


def find(folder: Path, classes: tuple[str, ...] = ()) -> str:
    with pytest.raises(AuthorError) as caught:
        read_students(folder, classes)
    return str(caught.value)


@pytest.mark.parametrize("users", [USERS_11, USERS_12, "\ufeff" + USERS_11])
def test_students_come_with_their_section_and_teachers_do_not(
    tmp_path: Path, users: str
) -> None:
    assert read_students(write(tmp_path, users)) == BOTH


def test_without_titles_a_section_is_the_class_s_id(tmp_path: Path) -> None:
    (write(tmp_path) / "classes.csv").unlink()
    assert [each.section for each in read_students(tmp_path)] == ["c-m", "c-e"]


def test_only_the_classes_that_are_named_count(tmp_path: Path) -> None:
    assert read_students(write(tmp_path), ["c-e"]) == BOTH[1:]
    assert "in the class 'c-x'" in find(tmp_path, ("c-x",))


@pytest.mark.parametrize(
    ("users", "enrollments"),
    [
        (USERS_11.replace("u2,,,true", "u2,,,false"), ENROLLMENTS),
        (USERS_11, ENROLLMENTS.replace("e2,,", "e2,tobedeleted,")),
    ],
)
def test_who_is_gone_is_left_out(tmp_path: Path, users: str, enrollments: str) -> None:
    assert read_students(write(tmp_path, users, enrollments)) == BOTH[:1]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("o1,u2,student", "o1,u7,student", "csv:3: the user 'u7' is not in users.csv."),
        ("o1,u2,student", "o1,u1,student", "csv:3: the user 'u1' is enrolled in anoth"),
        ("userSourcedId,", "userId,", "csv:1: the column 'userSourcedId' is missing."),
        ("student", "aide", "nobody is enrolled as a student."),
        ("e1,,,c-m", 'e1,,,"c-m', "the row is no CSV"),
    ],
)
def test_a_mistake_is_told_with_its_line(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    folder = write(tmp_path, enrollments=ENROLLMENTS.replace(old, new))
    assert said in find(folder)


def test_an_id_that_can_name_no_folder_is_told(tmp_path: Path) -> None:
    users, enrollments = (t.replace("u2", "u/2") for t in (USERS_11, ENROLLMENTS))
    assert "csv:2: the sourcedId 'u/2' holds '/'" in find(
        write(tmp_path, users, enrollments)
    )


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    (write(tmp_path) / "enrollments.csv").unlink()
    assert "enrollments.csv: the file can't be read" in find(tmp_path)


def test_enrolling_late_changes_nobody_s_values(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    text = course.read_text(encoding="utf-8").replace("roster.csv", "list")
    course.write_text(text, encoding="utf-8")
    write(tmp_path / "list")
    before = CourseSource(course).cases(LAB, ["u1", "u2"])
    late = USERS_11 + "u0,,,true,o1,student,zz,,Early,Inlist,,,,,,,,\n"
    write(tmp_path / "list", late, f"{ENROLLMENTS}e4,,,c-m,o1,u0,student,false,,\n")
    after = CourseSource(course).cases(LAB, ["u0", "u1", "u2"])
    assert [case.values for case in after[1:]] == [case.values for case in before]
