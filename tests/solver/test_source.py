"""Where cases come from: a course with its key."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace as changed

from tests.support.soap import LAB, STUDENTS, make_course, name_sheet
from tests.support.variant import STUDENTS as VARIED_STUDENTS
from tests.support.variant import make_varied_source, say_variant
from workbook.draw.key import CourseKey
from workbook.errors import CheckerRefusedError, TaskError
from workbook.judge.judge import judge
from workbook.labfile.course import Conventions
from workbook.solver.source import CourseSource, Source
from workbook.wire.answer import Typed
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
    sheet, other = name_sheet("a1"), name_sheet("b2")
    seal = source.seal(sheet, "ab" * 32)
    assert source.is_seal(seal, sheet, "ab" * 32)
    assert not source.is_seal(seal, sheet, "ac" * 32)
    assert not source.is_seal(seal, other, "ab" * 32)
    assert not source.is_seal("", sheet, "ab" * 32)
    assert not source.is_seal("é", sheet, "ab" * 32)


def test_a_source_serves_several_labs(lab: Lab) -> None:
    twin = replace(lab, public=replace(lab.public, name="twin"))
    labs = {LAB: lab, "twin": twin}
    source = Source("two", labs, CourseKey(b"\x01" * 32), Conventions())
    sheets = [source.sheet(SheetId("two", name, 1, "a")) for name in labs]
    assert sheets[0].givens + sheets[0].postlab != sheets[1].givens + sheets[1].postlab


def test_each_student_works_with_a_variant_of_their_own(tmp_path: Path) -> None:
    source = make_varied_source(tmp_path)
    # Chalk 100.086 g/mol; two of acetic acid, 60.052 g/mol, or one of oxalic acid,
    # 90.034 g/mol, for each.
    per_gram = {"acetic acid": 2 * 60.052 / 100.086, "oxalic acid": 90.034 / 100.086}
    seen = set()
    for case in source.cases("chalk-in-acid", VARIED_STUDENTS[:40]):
        says = say_variant(case)
        seen.add(says)
        expected = case.values["planned_chalk"] * per_gram[says]
        assert case.values["rinse_mass"] == pytest.approx(expected, rel=1e-4)
    assert seen == per_gram.keys()


def test_the_sheet_says_which_variant_it_is(tmp_path: Path) -> None:
    source = make_varied_source(tmp_path)
    for student in VARIED_STUDENTS[:10]:
        sheet = source.sheet(SheetId("c", "chalk-in-acid", 1, student))
        given = sheet.givens[0]
        assert given.label == "acid for rinsing"
        assert given.shown in {each.name for each in sheet.reagents}
        assert any(given.shown in each for each in sheet.equations)
        (other,) = {"acetic acid", "oxalic acid"} - {given.shown}
        assert other not in repr(sheet)


def test_a_slip_is_that_of_the_variant_of_the_student(tmp_path: Path) -> None:
    said: dict[str, set[bool]] = {}
    for case in make_varied_source(tmp_path).cases("chalk-in-acid", VARIED_STUDENTS):
        # As much acid as chalk, in moles: a slip with acetic acid, right with oxalic.
        grams = case.values["planned_amount"] * case.values["vinegar.molar_mass"]
        verdict = judge(case, "rinse_mass", {"rinse_mass": Typed(f"{grams:.4g} g")})
        said.setdefault(say_variant(case), set()).add(verdict.value_holds)
    assert said == {"acetic acid": {False}, "oxalic acid": {True}}
