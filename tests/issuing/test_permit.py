"""Opening the gate of a lab for one student."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, NOON, make_course, name_sheet
from workbook.errors import AuthorError, TaskError
from workbook.issuing.permit import name_gate, open_gate
from workbook.labfile.permit import PERMIT_FILE, encode_permits, read_permits
from workbook.labfile.roster import Student
from workbook.solver.desk import Desk
from workbook.solver.source import CourseSource
from workbook.wire.message import Held, Passed, PassGate, Refused, Why

if TYPE_CHECKING:
    from pathlib import Path

ROSTER = (Student("a1", "Ada"), Student("b2", "Ben"))


@pytest.fixture
def source(tmp_path: Path) -> CourseSource:
    return CourseSource(make_course(tmp_path))


def test_a_gate_is_opened_for_one_student_while_the_checker_runs(
    source: CourseSource,
) -> None:
    desk = Desk(source)
    assert isinstance(desk.answer(PassGate(name_sheet("a1"))), Held)
    assert open_gate(source, name_sheet("a1"), NOON)
    passed = desk.answer(PassGate(name_sheet("a1")))
    assert isinstance(passed, Passed)
    assert all(sight.seen for sight in passed.sights)
    assert isinstance(desk.answer(PassGate(name_sheet("b2"))), Held)


def test_a_gate_is_opened_once(source: CourseSource) -> None:
    open_gate(source, name_sheet("a1"), NOON)
    before = source.permits.read_bytes()
    assert not open_gate(source, name_sheet("a1"), datetime.now(UTC))
    assert source.permits.read_bytes() == before


def test_earlier_permits_stay(source: CourseSource) -> None:
    for student in ("a1", "b2"):
        open_gate(source, name_sheet(student), NOON)
    assert [p.student for p in read_permits(source.permits)] == ["a1", "b2"]
    assert source.is_permitted(name_sheet("a1"))
    assert source.is_permitted(name_sheet("b2"))


def test_a_permit_that_was_copied_to_another_name_opens_nothing(
    source: CourseSource,
) -> None:
    open_gate(source, name_sheet("a1"), NOON)
    (permit,) = read_permits(source.permits)
    forged = permit.model_copy(update={"student": "b2"})
    source.permits.write_bytes(encode_permits([forged]))
    assert not source.is_permitted(name_sheet("b2"))


def test_the_seal_of_a_hand_in_opens_nothing(source: CourseSource) -> None:
    permit = source.permit("a1", LAB, NOON)
    seal = source.seal(name_sheet("a1"), f"permit {source.name} {LAB} a1")
    source.permits.write_bytes(
        encode_permits([permit.model_copy(update={"seal": seal})])
    )
    assert not source.is_permitted(name_sheet("a1"))


def test_a_damaged_file_of_permits_is_never_written_over(
    source: CourseSource, capsys: pytest.CaptureFixture[str]
) -> None:
    source.permits.write_text("[[permit]]\nstudent = 'a1'\n", encoding="utf-8")
    with pytest.raises(AuthorError):
        open_gate(source, name_sheet("a1"), NOON)
    refused = Desk(source).answer(PassGate(name_sheet("a1")))
    assert isinstance(refused, Refused)
    assert refused.why is Why.LAB
    assert PERMIT_FILE not in refused.reason
    assert PERMIT_FILE in capsys.readouterr().err


@pytest.mark.parametrize(
    ("student", "lab", "says"),
    [
        ("a11", LAB, "'a11' is not on the roster. Did you mean 'a1'?"),
        ("a1", "olive-oil", "The course has no lab 'olive-oil'."),
    ],
)
def test_who_or_what_is_not_there_is_told(
    source: CourseSource, student: str, lab: str, says: str
) -> None:
    with pytest.raises(TaskError) as caught:
        name_gate(source, ROSTER, student, lab)
    assert str(caught.value).startswith(says)


def test_the_sheet_of_a_gate_is_named_whole(source: CourseSource) -> None:
    assert name_gate(source, ROSTER, "a1", LAB) == name_sheet("a1")
