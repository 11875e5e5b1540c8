"""Asking for the worked answer of a step on a practice sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL
from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import open_practice
from workbook.client.worked import ask_worked, is_tried
from workbook.errors import CheckerRefusedError
from workbook.solver.desk import Desk
from workbook.solver.practice import PracticeSource
from workbook.wire.answer import Typed
from workbook.wire.message import Opened, OpenSheet, Sealed

if TYPE_CHECKING:
    from workbook.client.session import Session
    from workbook.wire.message import Question, Statement


@pytest.fixture
def checker() -> DirectChecker:
    return DirectChecker(Desk(PracticeSource(OLIVE_OIL)).answer)


@pytest.fixture
def session(checker: DirectChecker) -> Session:
    return open_practice(Part.POSTLAB, checker)


def test_a_step_is_tried_by_what_can_be_judged(session: Session) -> None:
    assert not is_tried(session, "dish")
    session.submit("dish", Typed("much"))
    assert not is_tried(session, "dish")
    session.submit("dish", Typed("1.00 g"))
    assert is_tried(session, "dish")


def test_no_step_of_an_issued_sheet_is_ever_tried_enough(session: Session) -> None:
    session.submit("dish", Typed("1.00 g"))
    session.is_issued = True
    assert not is_tried(session, "dish")


def test_the_worked_answer_comes_line_by_line(session: Session) -> None:
    session.submit("soap_mass", Typed("1.00 g"))
    lines = ask_worked(session, "soap_mass")
    assert [line.words[:2] for line in lines] == ["ma", "= ", "= ", "= "]


def test_each_practice_sheet_has_values_of_its_own(checker: DirectChecker) -> None:
    sheets = [open_practice(Part.POSTLAB, checker).sheet for _ in range(3)]
    assert len({sheet.id for sheet in sheets}) == 3
    assert len({sheet.postlab for sheet in sheets}) == 3


def test_an_answer_of_another_kind_is_no_worked_answer(session: Session) -> None:
    sheet = session.sheet

    def say(question: Question) -> Statement:
        return Opened(sheet) if isinstance(question, OpenSheet) else Sealed("5ea1")

    session.submit("dish", Typed("1.00 g"))
    session.checker = DirectChecker(say)
    with pytest.raises(CheckerRefusedError, match="gave no worked answer"):
        ask_worked(session, "dish")
