"""Where cases come from: a course with its key."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace as changed

from tests.support.soap import LAB, STUDENTS, make_course, name_sheet
from workbook.draw.key import CourseKey
from workbook.errors import CheckerRefusedError, TaskError
from workbook.labfile.course import Conventions
from workbook.solver.source import CourseSource, Source
from workbook.wire.message import Why
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab


def test_a_course_gives_each_student_values_of_their_own(source: CourseSource) -> None:
    values = [tuple(case.values.values()) for case in source.cases(LAB, STUDENTS)]
    assert len(set(values)) == len(STUDENTS)


def test_one_case_is_that_of_the_class(source: CourseSource) -> None:
    together = source.cases(LAB, STUDENTS)
    alone = source.case(name_sheet(STUDENTS[1]))
    assert alone.values == together[1].values


def test_the_same_key_gives_the_same_sheet_again(tmp_path: Path) -> None:
    first, second = (CourseSource(make_course(tmp_path)) for _ in range(2))
    sheet = name_sheet("a1")
    assert first.sheet(sheet) == second.sheet(sheet)


@pytest.mark.parametrize(
    ("field", "value", "why", "said"),
    [
        ("course", "salt-2", Why.COURSE, "the course 'salt-2'"),
        ("lab", "nylon", Why.COURSE, "no lab 'nylon' here"),
        ("revision", 2, Why.REVISION, "revision 2 of 'olive-oil-soap'"),
        ("student", "zz", Why.STUDENT, "'zz' is not on the roster"),
    ],
)
def test_a_foreign_sheet_is_refused_by_name(
    source: CourseSource, field: str, value: object, why: Why, said: str
) -> None:
    with pytest.raises(CheckerRefusedError, match=said) as caught:
        source.sheet(changed(name_sheet("a1"), **{field: value}))
    assert caught.value.code == why.value


def test_an_unknown_lab_has_no_cases(source: CourseSource) -> None:
    with pytest.raises(CheckerRefusedError, match="there are \\['olive-oil-soap'\\]"):
        source.cases("nylon", ["a1"])


def test_a_course_without_its_key_can_not_be_served(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="key is not there"):
        CourseSource(make_course(tmp_path, has_key=False))


def test_a_seal_is_known_again_and_no_other(source: CourseSource) -> None:
    seal = source.seal("ab" * 32)
    assert source.is_seal(seal, "ab" * 32)
    assert not source.is_seal(seal, "ac" * 32)
    assert not source.is_seal("", "ab" * 32)
    assert not source.is_seal("é", "ab" * 32)


def test_a_source_serves_several_labs(lab: Lab) -> None:
    twin = replace(lab, public=replace(lab.public, name="twin"))
    labs = {LAB: lab, "twin": twin}
    source = Source("two", labs, CourseKey(b"\x01" * 32), Conventions())
    sheets = [source.sheet(SheetId("two", name, 1, "a")) for name in labs]
    assert sheets[0].givens + sheets[0].postlab != sheets[1].givens + sheets[1].postlab
