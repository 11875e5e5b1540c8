"""What commands on a course do first and last."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, STUDENTS, make_course
from workbook.command.course import fill_output, prepare_course
from workbook.errors import AuthorError, TaskError

if TYPE_CHECKING:
    from pathlib import Path


def test_a_good_course_gives_its_roster(tmp_path: Path) -> None:
    roster = prepare_course(make_course(tmp_path))
    assert tuple(student.id for student in roster) == STUDENTS


def test_mistakes_of_lab_and_roster_are_told_at_once(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    course.write_text(course.read_text().replace("olive-oil-soap", "soap"))
    (tmp_path / "roster.csv").write_text("student\na1\n")
    with pytest.raises(AuthorError) as caught:
        prepare_course(course)
    assert len(caught.value.findings) == 2


def test_a_lab_that_is_not_there_is_told_where_it_is_named(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    course.write_text(course.read_text().replace("olive-oil-soap", "first-lab"))
    with pytest.raises(AuthorError) as caught:
        prepare_course(course)
    (finding,) = caught.value.findings
    (line,) = (
        number
        for number, text in enumerate(course.read_text().splitlines(), start=1)
        if text.startswith("labs")
    )
    assert finding.startswith(f"{course}:{line}: no lab is in ")
    assert finding.endswith("first-lab")


def test_an_earlier_folder_is_set_aside_only_when_asked(tmp_path: Path) -> None:
    place = tmp_path / "out"
    place.mkdir()
    (place / "marks.csv").write_text("old")
    with pytest.raises(TaskError), fill_output(place, ["marks.csv"], may_replace=False):
        pass
    with fill_output(place, ["marks.csv"], may_replace=True) as draft:
        (draft / "marks.csv").write_text("new")
    assert (place / "marks.csv").read_text() == "new"
    assert (tmp_path / "out.before-1" / "marks.csv").read_text() == "old"


LATER = (
    f'[dates.{LAB}]\ndue = 2026-10-12T17:00:00\n[[extensions]]\nlab = "{LAB}"\n'
    f'due = 2026-10-13T17:00:00\nreason = "ill"\nstudent = "a12"\n'
)
BOTTLE = f'[[bottles]]\nlab = "{LAB}"\nsource = "label"\n'


@pytest.mark.parametrize(
    ("table", "line", "said"),
    [
        (LATER, 12, "'a12' is not on the roster. Did you mean 'a1'?"),
        (
            f'{BOTTLE}of = "oil.density"\nvalue = "0.92 g/mL"\nsection = "mourning"\n',
            11,
            "no student is in section 'mourning'. Did you mean 'morning'?",
        ),
        (
            f'{BOTTLE}of = "oil.densty"\nvalue = "0.92 g/mL"\n',
            6,
            "'oil.densty' is no constant of 'olive-oil-soap'",
        ),
        (
            f"[marks.attempts.steps.{LAB}]\nsoap_mas = 2\n",
            7,
            "'soap_mas' is no step of 'olive-oil-soap'. Did you mean 'soap_mass'?",
        ),
        (
            '[marks.credit.slips]\ndensity_upsid_down = "0.5"\n',
            7,
            (
                "'density_upsid_down' is no kind of mistake. Did you mean "
                "'density_upside_down'?"
            ),
        ),
        (
            f"[marks.steps.{LAB}]\nsoap_mas = 2\n",
            7,
            "'soap_mas' is no step of 'olive-oil-soap'.",
        ),
    ],
)
def test_a_name_that_is_not_there_is_told_with_its_line(
    tmp_path: Path, table: str, line: int, said: str
) -> None:
    course = make_course(tmp_path)
    course.write_text(course.read_text(encoding="utf-8") + table, encoding="utf-8")
    with pytest.raises(AuthorError) as caught:
        prepare_course(course)
    (found,) = caught.value.findings
    assert found.startswith(f"{course}:{line}: {said}")
