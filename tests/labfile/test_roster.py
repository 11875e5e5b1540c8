"""Reading a roster, and telling all that is wrong with one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.errors import AuthorError
from workbook.labfile.roster import Student, explain_id, read_roster

if TYPE_CHECKING:
    from pathlib import Path


def write(folder: Path, content: str | bytes) -> Path:
    path = folder / "roster.csv"
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def find(folder: Path, content: str | bytes) -> list[str]:
    """Return the findings, each without the folder."""
    with pytest.raises(AuthorError) as caught:
        read_roster(write(folder, content))
    return [each.removeprefix(f"{folder}/") for each in caught.value.findings]


def test_a_row_becomes_a_student(tmp_path: Path) -> None:
    path = write(tmp_path, "student,name,section\nhk-01,Ada Moss,A\n")
    assert read_roster(path) == (Student("hk-01", "Ada Moss", "A"),)


def test_a_roster_needs_no_sections(tmp_path: Path) -> None:
    path = write(tmp_path, "student,name\nhk-01,Ada Moss\n")
    assert read_roster(path) == (Student("hk-01", "Ada Moss", ""),)


def test_columns_may_stand_in_any_order(tmp_path: Path) -> None:
    path = write(tmp_path, "section,name,student\nA,Ada Moss,hk-01\n")
    assert read_roster(path) == (Student("hk-01", "Ada Moss", "A"),)


def test_a_byte_order_mark_and_windows_line_ends_are_no_trouble(tmp_path: Path) -> None:
    path = write(tmp_path, b"\xef\xbb\xbfstudent,name\r\nhk-01,Ada Moss\r\n")
    assert read_roster(path) == (Student("hk-01", "Ada Moss"),)


def test_a_name_with_a_comma_stands_in_quotes(tmp_path: Path) -> None:
    path = write(tmp_path, 'student,name\nhk-01,"Moss, Ada"\n')
    assert read_roster(path)[0].name == "Moss, Ada"


def test_blank_lines_are_passed_over(tmp_path: Path) -> None:
    path = write(tmp_path, "student,name\n\nhk-01,Ada Moss\n,\n")
    assert len(read_roster(path)) == 1


def test_a_name_may_hold_any_character(tmp_path: Path) -> None:
    path = write(tmp_path, "student,name\nhk-01,Ada\u2028\x1cMoss\n")
    assert read_roster(path)[0].name == "Ada\u2028\x1cMoss"


@pytest.mark.parametrize(
    ("content", "finding"),
    [
        ("", "roster.csv:1: the file is empty"),
        ("student,name\n", "roster.csv:1: no student follows"),
        ("student,name\n,Ada\n", "roster.csv:2: the student id '' is empty."),
        ("student,name\na/b,Ada\n", "roster.csv:2: the student id 'a/b' holds '/'"),
        ("student,name\na b,Ada\n", "roster.csv:2: the student id 'a b' holds ' '"),
        ("student,name\né1,Ada\n", "roster.csv:2: the student id 'é1' holds 'é'"),
        ("student,name\n.a,Ada\n", "roster.csv:2: the student id '.a' starts with"),
        ("student,name\n..,Ada\n", "roster.csv:2: the student id '..' starts with"),
        ("student,name\n-a,Ada\n", "roster.csv:2: the student id '-a' starts with"),
        ("name\nAda\n", "roster.csv:1: the column 'student' is missing"),
        ("student\na1\n", "roster.csv:1: the column 'name' is missing"),
        ("student;name\na;b\n", "roster.csv:1: the columns are parted by ';'"),
        ("student,name,name\na,b,c\n", "roster.csv:1: the column 'name' stands there"),
        ("student,name\na1\n", "roster.csv:2: the number of cells is 1, and 2 in"),
        ("student,name\na1,b,c\n", "roster.csv:2: the number of cells is 3"),
        ('student,name\na1,"Ada"x\n', "roster.csv:2: the row is no CSV"),
        (b"student,name\na1,Ada\na2,\xe9va\n", "roster.csv:3: the byte 0xe9"),
    ],
)
def test_a_mistake_is_told_with_its_line(
    tmp_path: Path, content: str | bytes, finding: str
) -> None:
    (found,) = find(tmp_path, content)
    assert found.startswith(finding)


def test_an_id_that_is_too_long_is_told_with_its_length(tmp_path: Path) -> None:
    (found,) = find(tmp_path, f"student,name\n{'a' * 65},Ada\n")
    assert "has 65 characters; at most 64 are allowed" in found


def test_a_second_row_of_the_same_id_names_the_first(tmp_path: Path) -> None:
    (found,) = find(tmp_path, "student,name\na1,Ada\na2,Ben\na1,Cleo\n")
    assert found.startswith("roster.csv:4: the student id 'a1' stands in line 2")


def test_ids_that_differ_in_capitals_only_are_the_same_folder(tmp_path: Path) -> None:
    (found,) = find(tmp_path, "student,name\nA1,Ada\na1,Ben\n")
    assert "'a1' stands in line 2 already as 'A1'" in found


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    found = find(tmp_path, "student,name\n,Ada\na/1,Ben\na2,Cleo\na2,Dan\na3\n")
    assert [each.split(": ")[0] for each in found] == [
        "roster.csv:2",
        "roster.csv:3",
        "roster.csv:5",
        "roster.csv:6",
    ]


def test_a_misspelt_column_is_told_with_the_nearest_name(tmp_path: Path) -> None:
    missing, unknown = find(tmp_path, "studnet,name\na1,Ada\n")
    assert missing.endswith("Did you mean 'studnet'?")
    assert unknown.endswith("Did you mean 'student'?")


def test_a_line_is_counted_across_a_name_of_two_lines(tmp_path: Path) -> None:
    (found,) = find(tmp_path, 'student,name\na1,"Ada\nMoss"\na/2,Ben\n')
    assert found.startswith("roster.csv:4:")


def test_a_roster_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(AuthorError, match=r"roster\.csv: the roster can't be read"):
        read_roster(tmp_path / "roster.csv")


def test_an_id_of_the_greatest_length_is_plain() -> None:
    assert explain_id("a" * 64) == ""


@pytest.mark.parametrize("name", ["CON", "aux", "nul.2", "com1", "LPT9", "k3f8."])
def test_an_id_that_windows_makes_no_folder_of_is_refused(name: str) -> None:
    assert "Windows" in explain_id(name)


@pytest.mark.parametrize("name", ["connie", "aux-1", "com", "lpt10", "k.3"])
def test_an_id_that_only_looks_like_one_is_plain(name: str) -> None:
    assert explain_id(name) == ""


def test_a_student_may_have_another_name_on_a_hub(tmp_path: Path) -> None:
    path = write(tmp_path, "student,name,login\nhk-01,Ada Moss,ada@x.edu\nhk-02,Ben,\n")
    first, second = read_roster(path)
    assert (first.login, second.login) == ("ada@x.edu", "")


@pytest.mark.parametrize(
    ("rows", "login"),
    [
        ("hk-01,Ada,ada\nhk-02,Ben,Ada\n", "Ada"),
        ("hk-01,Ada,hk-02\nhk-02,Ben,\n", "hk-02"),
        ("hk-01,Ada,\nhk-02,Ben,hk-01\n", "hk-01"),
    ],
)
def test_two_students_have_no_name_on_a_hub_in_common(
    tmp_path: Path, rows: str, login: str
) -> None:
    (finding,) = find(tmp_path, f"student,name,login\n{rows}")
    assert f"roster.csv:3: the login {login!r} is that of the student in" in finding
    assert "line 2 already" in finding
