"""Whether a hand-in belongs to the course and is as it was written."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.support.soap import make_hand_in, name_sheet
from workbook.errors import HandInError
from workbook.marking.acceptance import Expected, accept
from workbook.wire.answer import Answer, Built, Chosen, Derived, Placed, Typed
from workbook.wire.handin import HandIn, digest

if TYPE_CHECKING:
    from workbook.solver.source import CourseSource


@pytest.fixture(scope="module")
def hand_in(source: CourseSource) -> HandIn:
    return make_hand_in(source, "a1", {"dish": Typed("45.05 g")})


def reseal(hand_in: HandIn, seal: str) -> HandIn:
    """Return a hand-in with a digest that fits, as a forger can make one."""
    mark = digest(hand_in.sheet, hand_in.attempts, hand_in.at)
    return replace(hand_in, digest=mark, seal=seal)


def explain(hand_in: HandIn, expected: Expected, name: str = "x.handin.json") -> str:
    with pytest.raises(HandInError) as caught:
        accept(hand_in, name, expected)
    return caught.value.reason


def test_a_sealed_hand_in_is_accepted_without_a_remark(
    hand_in: HandIn, expected: Expected
) -> None:
    assert accept(hand_in, "a1.handin.json", expected) == ""


def test_a_hand_in_without_a_seal_is_accepted_with_a_remark(
    hand_in: HandIn, expected: Expected
) -> None:
    remark = accept(replace(hand_in, seal=""), "a1.handin.json", expected)
    assert remark.startswith("It has no seal")


@pytest.mark.parametrize(
    ("field", "value", "reason"),
    [
        (
            "course",
            "salt-2",
            "it belongs to the course 'salt-2', and this is 'salt-1'.",
        ),
        ("student", "d4", "no student 'd4' is in the roster."),
        ("student", "", "no student '' is in the roster."),
        ("lab", "olive-oil-soup", "no lab 'olive-oil-soup' is in the course. Did you"),
        (
            "revision",
            2,
            "it answers revision 2 of 'olive-oil-soap', and the course now",
        ),
    ],
)
def test_a_hand_in_of_elsewhere_is_told(
    hand_in: HandIn, expected: Expected, field: str, value: object, reason: str
) -> None:
    foreign = replace(hand_in, sheet=replace(hand_in.sheet, **{field: value}))
    assert explain(reseal(foreign, ""), expected).startswith(reason)


def test_an_answer_changed_after_writing_is_told(
    hand_in: HandIn, expected: Expected
) -> None:
    (attempt,) = hand_in.attempts
    better = replace(attempt, answer=Typed("45.06 g"))
    changed = replace(hand_in, attempts=(better,))
    assert explain(changed, expected).startswith("it was changed after it was written")


def test_an_earlier_time_written_in_afterwards_is_told(
    hand_in: HandIn, expected: Expected
) -> None:
    earlier = replace(hand_in, at=hand_in.at - timedelta(days=1))
    assert explain(earlier, expected).startswith("it was changed after it was written")


def test_a_digest_made_anew_does_not_fit_the_old_seal(
    hand_in: HandIn, expected: Expected
) -> None:
    changed = reseal(replace(hand_in, attempts=()), hand_in.seal)
    assert explain(changed, expected).startswith("its seal is wrong")


def test_a_sheet_turned_into_another_students_does_not_fit_its_seal(
    hand_in: HandIn, expected: Expected
) -> None:
    taken = replace(hand_in, sheet=replace(hand_in.sheet, student="b2"))
    assert explain(reseal(taken, hand_in.seal), expected).startswith(
        "its seal is wrong"
    )


@pytest.mark.parametrize(
    "name", ["b2.handin.json", "b2/olive-oil-soap/x.handin.json", "b2/b2.handin.json"]
)
def test_a_sheet_under_another_students_name_is_told(
    hand_in: HandIn, expected: Expected, name: str
) -> None:
    assert explain(hand_in, expected, name) == (
        "it lies under the name of student 'b2', and is the sheet of 'a1'."
    )


@pytest.mark.parametrize(
    "name", ["a1-2.handin.json", "week 1/a1/x.handin.json", "b2-old/a1.handin (1).json"]
)
def test_other_names_of_folders_and_files_say_nothing(
    hand_in: HandIn, expected: Expected, name: str
) -> None:
    assert accept(hand_in, name, expected) == ""


@pytest.mark.parametrize(
    ("step", "answer", "reason"),
    [
        (
            "dysh",
            Typed("1 g"),
            "it answers 'dysh', which is no step. Did you mean 'dish'",
        ),
        (
            "dish",
            Chosen(("oil",)),
            "its answer to 'dish' is not that of a reading step",
        ),
        ("oil_mass", Typed("1 g"), "its answer to 'oil_mass' is not that of a chain"),
        (
            "oil_mass",
            Built((Placed("ratio(", turned=False),), "1 g"),
            "its answer to 'oil_mass' uses 'ratio(', which is not offered.",
        ),
        (
            "limiting",
            Chosen(("gold",)),
            "its answer to 'limiting' uses 'gold', which is not offered.",
        ),
        (
            "soap.molar_mass",
            Derived(("x = 1",) * 101, "1 g/mol"),
            "its answer to 'soap.molar_mass' has 101 parts, and at most 100",
        ),
    ],
)
def test_an_answer_that_no_notebook_gives_is_told(
    source: CourseSource, expected: Expected, step: str, answer: Answer, reason: str
) -> None:
    hand_in = make_hand_in(source, "a1", {step: answer})
    assert explain(hand_in, expected).startswith(reason)


def test_every_step_of_the_lab_can_be_answered(
    source: CourseSource, expected: Expected, answers: dict[str, Answer]
) -> None:
    assert accept(make_hand_in(source, "a1", answers), "a1.handin.json", expected) == ""


def test_a_seal_that_another_student_has_got_does_not_hold(
    source: CourseSource, expected: Expected
) -> None:
    forged = make_hand_in(source, "b2", {})
    own = name_sheet("a1")
    stolen = replace(forged, seal=source.seal(own, forged.digest))
    assert explain(stolen, expected).startswith("its seal is wrong")
