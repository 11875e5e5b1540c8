"""Bad input, line by line: a sentence, the others marked, nothing lost."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.support.command import (
    ALL,
    break_lab,
    copy_lab,
    hand_in_all,
    rows,
    run,
    snapshot,
)
from tests.support.soap import LAB, LAB_FOLDER, STUDENTS, make_course


@pytest.fixture(autouse=True)
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run every command in a folder of its own."""
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize(
    ("file", "old", "new", "finding"),
    [
        ("course.toml", "title ", "titel ", "course.toml:3: 'titel' is not a key"),
        ("course.toml", '"salt-1"', '"salt/1"', "course.toml:2: course.name"),
        (
            "roster.csv",
            "b2",
            "a1",
            "roster.csv:3: the student id 'a1' stands in line 2",
        ),
        ("roster.csv", "b2", "", "roster.csv:3: the student id '' is empty"),
        ("roster.csv", "b2", "b/2", "roster.csv:3: the student id 'b/2' holds '/'"),
        ("roster.csv", "b2", "../b2", "roster.csv:3: the student id '../b2' holds '/'"),
    ],
)
def test_a_mistake_in_course_or_roster_is_told_and_nothing_is_written(
    tmp_path: Path, file: str, old: str, new: str, finding: str
) -> None:
    course = make_course(tmp_path, has_key=False)
    text = (tmp_path / file).read_text()
    (tmp_path / file).write_text(text.replace(old, new, 1))
    result = run("issue", course, "--to", "out")
    assert result.exit_code == 2
    assert finding in result.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "course.toml",
        "roster.csv",
    ]


def test_mistakes_of_lab_and_roster_are_told_together(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    break_lab(lab)
    course = make_course(tmp_path)
    course.write_text(course.read_text().replace(LAB_FOLDER.as_posix(), LAB))
    (tmp_path / "roster.csv").write_text("student,name\n,Ada\n")
    result = run("issue", course, "--to", "out")
    assert result.exit_code == 2
    assert f"{LAB}/lab.toml:" in result.stderr
    assert "roster.csv:2: the student id '' is empty" in result.stderr


def test_points_for_a_step_that_does_not_exist_are_told(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    with course.open("a") as file:
        file.write(f"[marks.steps.{LAB}]\noil_mas = 1\n")
    result = run("issue", course, "--to", "out")
    assert result.exit_code == 2
    assert "course.toml:7: 'oil_mas' is no step" in result.stderr
    assert "Did you mean 'oil_mass'?" in result.stderr


def spoil(path: Path, kind: str) -> None:
    """Make a good hand-in a bad one."""
    content = path.read_bytes()
    if kind == "100 MB":
        with path.open("wb") as file:
            file.truncate(100_000_000)
        return
    data = json.loads(content)
    if kind == "other revision":
        data["sheet"]["revision"] = 7
    spoilt = {
        "empty": b"",
        "cut short": content[: len(content) // 2],
        "not JSON": b"a picture of my notebook",
        "other student": content.replace(b'"student": "b2"', b'"student": "d4"'),
        "other revision": json.dumps(data).encode(),
        "tampered": content.replace(b"rinse", b"acid"),
        "other kind": b'{"version": 1, "grade": "A"}',
    }
    path.write_bytes(spoilt[kind])


@pytest.mark.parametrize(
    ("kind", "reason"),
    [
        ("empty", "it is empty."),
        ("cut short", "it is cut short"),
        ("not JSON", "it is not JSON."),
        ("other student", "no student 'd4' is in the roster."),
        ("other revision", "it answers revision 7"),
        ("tampered", "it was changed after it was written"),
        ("other kind", "it is JSON, but no hand-in"),
        ("100 MB", "it has 100000000 bytes"),
    ],
)
def test_a_bad_hand_in_is_told_and_the_others_are_marked(
    tmp_path: Path, kind: str, reason: str
) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", STUDENTS)
    spoil(tmp_path / "in" / "b2.handin.json", kind)
    result = run("mark", course, "--handins", "in", "--to", "marks")
    assert result.exit_code == 1
    assert f"b2.handin.json: {reason}" in result.stderr
    points = {row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))}
    assert points == {"a1": ALL, "b2": "0", "c3": ALL}
    (problem,) = rows(Path("marks/problems.csv"))
    assert problem["file"] == "b2.handin.json"
    assert problem["reason"].startswith(reason)


def test_marking_changes_no_hand_in(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    hand_in_all(course, tmp_path / "in", STUDENTS)
    spoil(tmp_path / "in" / "b2.handin.json", "cut short")
    before = snapshot(tmp_path / "in")
    run("mark", course, "--handins", "in", "--to", "marks")
    assert snapshot(tmp_path / "in") == before
