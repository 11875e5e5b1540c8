"""What lies on the desk: questions, texts, and decisions that are kept."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.support.marked import HOSTILE
from workbook.errors import TaskError
from workbook.marking.override import OVERRIDES_FILE, read_overrides

if TYPE_CHECKING:
    from workbook.desk.work import Work


def test_the_questions_are_the_steps_that_ask_for_a_text(work: Work) -> None:
    assert [q.step for q in work.questions()] == ["observations", "discussion"]
    (first, _) = work.questions()
    assert first.out_of == 2
    assert first.look_for


def test_every_text_is_there_once(work: Work) -> None:
    first = work.questions()[0]
    texts = {paper.text for paper in work.papers(first)}
    assert texts == {"The layers vanished after ten minutes.", HOSTILE}


def test_a_decision_is_kept_as_an_override(work: Work) -> None:
    question = work.questions()[1]
    paper = work.papers(question)[0]
    work.decide(question, paper, Decimal("1.5"), ("Clear.", "R. Eddy"))
    (kept,) = read_overrides(work.folder / OVERRIDES_FILE)
    assert (kept.student, kept.step) == (paper.student, "discussion")
    assert (kept.points, kept.reason, kept.marker) == (
        Decimal("1.5"),
        "Clear.",
        "R. Eddy",
    )


def test_what_is_decided_waits_no_more(work: Work) -> None:
    question = work.questions()[1]
    first, second = work.waiting(question)
    work.decide(question, first, Decimal(0), ("Nothing named.", "R. Eddy"))
    assert work.waiting(question) == [second]


def test_a_decision_without_a_name_is_refused(work: Work) -> None:
    question = work.questions()[1]
    with pytest.raises(TaskError, match="name of a marker"):
        work.decide(question, work.papers(question)[0], Decimal(1), ("Good.", ""))


def test_a_sheet_is_opened_with_its_own_values(work: Work) -> None:
    marked = work.open("olive-oil-soap", "b2")
    assert marked.student.id == marked.mark.student == "b2"


def test_a_student_who_handed_in_nothing_has_no_sheet(work: Work) -> None:
    with pytest.raises(KeyError):
        work.open("olive-oil-soap", "c3")
