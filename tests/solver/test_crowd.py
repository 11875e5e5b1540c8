"""Cases that are drawn for several students at a time."""

from __future__ import annotations

from typing import TYPE_CHECKING
from unittest.mock import Mock

import pytest

from tests.support.soap import STUDENTS, make_course, name_sheet
from workbook.errors import CheckerRefusedError, DrawError
from workbook.solver.crowd import CrowdSource
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from workbook.judge.case import Case


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_course(tmp_path_factory.mktemp("course"))


def test_each_student_has_the_values_that_they_have_alone(course: Path) -> None:
    crowd, alone = CrowdSource(course), CourseSource(course)
    for student in STUDENTS:
        sheet = name_sheet(student)
        assert crowd.case(sheet).values == alone.case(sheet).values


def test_those_who_come_later_are_drawn_already(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    crowd = CrowdSource(course)
    watched = Mock(wraps=crowd.cases)
    monkeypatch.setattr(crowd, "cases", watched)
    for student in STUDENTS:
        crowd.case(name_sheet(student))
    assert watched.call_count == 1


def test_a_case_that_is_asked_for_again_is_drawn_again(course: Path) -> None:
    crowd, sheet = CrowdSource(course), name_sheet("a1")
    assert crowd.case(sheet).values == crowd.case(sheet).values


def test_who_gets_no_fair_values_keeps_nobody_else_from_theirs(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    crowd, draw = CrowdSource(course), CrowdSource(course).cases

    def refuse(lab: str, students: Sequence[str]) -> list[Case]:
        if "c3" in students:
            raise DrawError(lab, "c3", 1, "of this test.")
        return draw(lab, students)

    monkeypatch.setattr(crowd, "cases", refuse)
    assert crowd.case(name_sheet("a1")).values
    with pytest.raises(DrawError):
        crowd.case(name_sheet("c3"))


def test_only_who_is_on_the_roster_has_a_case(course: Path) -> None:
    with pytest.raises(CheckerRefusedError, match="'z9' is not on the roster"):
        CrowdSource(course).case(name_sheet("z9"))
