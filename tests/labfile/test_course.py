"""Reading a course file, and telling all that is wrong with one."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from workbook.errors import AuthorError
from workbook.labfile.course import read_course
from workbook.measure.rounding import Ties
from workbook.measure.written import Comma

LEAST = """\
[course]
name = "salt-1"
title = "Salt"
labs = ["soap"]
roster = "roster.csv"
"""


def write(folder: Path, text: str) -> Path:
    path = folder / "course.toml"
    path.write_text(text, encoding="utf-8")
    return path


def find(folder: Path, text: str) -> list[str]:
    """Return the findings, each without the folder."""
    with pytest.raises(AuthorError) as caught:
        read_course(write(folder, text))
    return [each.removeprefix(f"{folder}/") for each in caught.value.findings]


def test_places_are_seen_from_the_file(tmp_path: Path) -> None:
    course = read_course(write(tmp_path, LEAST))
    assert course.folders == {"soap": tmp_path / "soap"}
    assert course.roster == tmp_path / "roster.csv"


def test_what_is_left_out_has_its_usual_value(tmp_path: Path) -> None:
    course = read_course(write(tmp_path, LEAST))
    assert course.conventions.ties is Ties.EVEN
    assert course.conventions.comma is Comma.ASK
    assert course.conventions.atomic_weights == "2021 abridged"
    assert course.conventions.figures_slack == 1


def test_points_are_exact(tmp_path: Path) -> None:
    text = f'{LEAST}[marks.points]\nreading = "0.1"\nchain = 3\n'
    points = read_course(write(tmp_path, text)).marks.points
    assert points.reading * 3 == Decimal("0.3")
    assert points.chain == 3


def test_a_step_may_be_worth_more_than_its_kind(tmp_path: Path) -> None:
    text = f'{LEAST}[marks.steps.soap]\n"soap.molar_mass" = 4\n'
    steps = read_course(write(tmp_path, text)).marks.steps
    assert steps == {"soap": {"soap.molar_mass": Decimal(4)}}


def test_the_demonstration_writes_out_every_usual_value(tmp_path: Path) -> None:
    path = Path(__file__).parents[2] / "exercises" / "course.toml"
    shown, usual = read_course(path), read_course(write(tmp_path, LEAST))
    assert shown.conventions == usual.conventions
    assert shown.marks.model_copy(update={"steps": {}}) == usual.marks


@pytest.mark.parametrize(
    ("old", "new", "finding"),
    [
        ('"salt-1"', '"salt/1"', "course.toml:2: course.name: the name holds '/'"),
        ('"salt-1"', '""', "course.toml:2: course.name"),
        ('title = "Salt"\n', "", "course.toml:1: course needs the key 'title'"),
        ('["soap"]', "[]", "course.toml:4: course.labs"),
        ('["soap"]', '["soap", "x/soap"]', "course.toml:4: a lab of the name 'soap'"),
        ('["soap"]', '["a b"]', "course.toml:4: the lab's folder 'a b' holds ' '"),
        (
            "roster =",
            "rooster =",
            "course.toml:5: 'rooster' is not a key",
        ),
    ],
)
def test_a_mistake_is_told_with_its_line(
    tmp_path: Path, old: str, new: str, finding: str
) -> None:
    found = find(tmp_path, LEAST.replace(old, new))
    assert any(each.startswith(finding) for each in found), found


@pytest.mark.parametrize(
    ("table", "finding"),
    [
        ('[conventions]\nties = "odd"', "course.toml:7: conventions.ties"),
        (
            "[conventions]\nfigures_slack = -1",
            "conventions.figures_slack",
        ),
        ("[marks.points]\nchain = 0.5", 'in quotes, like "0.5". Found 0.5.'),
        ("[marks.points]\nchain = true", "Found True."),
        ("[marks.points]\nchain = -1", "a number from 0 to 1000 is expected. Found"),
        ('[marks.points]\nchain = "NaN"', "a number from 0 to 1000 is expected. Found"),
        ('[marks.points]\nchain = "1e-9"', "at most 4 digits after the point"),
        ('[marks.points]\nchain = "two"', "Found 'two'."),
        ('[marks.credit]\nfollows = "1.5"', "a share from 0 to 1 is expected. Found"),
        ('[marks.late]\nrule = "daily"', "'daily' stands here; 'nothing', 'share a"),
        ("[marks.steps.soup]\nx = 1", "'soup' is no lab of this course."),
    ],
)
def test_a_wrong_setting_is_told(tmp_path: Path, table: str, finding: str) -> None:
    (found,) = find(tmp_path, f"{LEAST}{table}\n")
    assert finding in found
    assert found.startswith(("course.toml:6: ", "course.toml:7: "))


def test_an_unknown_table_of_weights_gets_the_known_ones(tmp_path: Path) -> None:
    (found,) = find(tmp_path, f'{LEAST}[conventions]\natomic_weights = "2021"\n')
    assert "'2021 abridged' and 'two decimals'" in found


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    text = LEAST.replace('"Salt"', "1") + '[conventions]\nties = "odd"\ncomma = "x"\n'
    assert [each.split(": ")[0] for each in find(tmp_path, text)] == [
        "course.toml:3",
        "course.toml:7",
        "course.toml:8",
    ]


def test_a_course_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(AuthorError, match=r"course\.toml"):
        read_course(tmp_path / "course.toml")
