"""The readings behind the gate: asked for, put on the sheet, kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from workbook.client.direct import DirectChecker
from workbook.client.gate import Gate, is_held
from workbook.client.place import Part, locate_readings
from workbook.client.session import Session
from workbook.errors import CheckerDiedError, CheckerRefusedError
from workbook.wire.answer import Typed
from workbook.wire.message import Held, Judged, Passed, PassGate, Sealed
from workbook.wire.sheet import ReadingStep, Sheet, Sight
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from workbook.wire.message import Question, Statement

PICTURE = "<svg></svg>"
SIGHT = Sight("wax_read", "The display shows 12.40 g.", PICTURE)
QUESTION = "What mass of wax do you need?"


class Porter:
    """A checker that lets pass, or tells what is missing, or fails."""

    def __init__(self) -> None:
        #: Raised where it is an error.
        self.says: Statement | Exception = Held(("plan",))
        self.asked: list[PassGate] = []

    def __call__(self, question: Question) -> Statement:
        """Answer, or raise the fault that was set."""
        if not isinstance(question, PassGate):
            return Judged(Verdict(Outcome.RIGHT, "It holds."))
        self.asked.append(question)
        if isinstance(self.says, Exception):
            raise self.says
        return self.says


@pytest.fixture
def porter() -> Porter:
    return Porter()


@pytest.fixture
def gated(sheet: Sheet) -> Sheet:
    """Return a sheet with a reading that is not shown yet."""
    reading = ReadingStep(id="wax_read", asks="?", unit="g", instrument="", seen="")
    return replace(sheet, gate=("plan",), postlab=(reading, *sheet.postlab))


@pytest.fixture
def open_gated(
    gated: Sheet, tmp_path: Path, porter: Porter
) -> Callable[[Part], Session]:
    return lambda part: Session(gated, part, tmp_path, DirectChecker(porter))


@pytest.fixture
def session(open_gated: Callable[[Part], Session]) -> Session:
    return open_gated(Part.POSTLAB)


def test_what_is_missing_is_told_in_the_words_of_the_sheet(session: Session) -> None:
    gate = Gate(session)
    gate.ask()
    assert gate.is_shut
    assert gate.missing == gate.questions == (QUESTION,)
    assert gate.trouble == ""


def test_the_standing_answers_of_both_parts_are_sent(
    open_gated: Callable[[Part], Session], porter: Porter
) -> None:
    open_gated(Part.PRELAB).submit("plan", Typed("1.5 g"))
    session = open_gated(Part.POSTLAB)
    Gate(session).ask()
    assert porter.asked == [PassGate(session.sheet.id, {"plan": Typed("1.5 g")})]


def test_once_passed_the_readings_are_on_the_sheet(
    session: Session, porter: Porter
) -> None:
    porter.says = Passed((SIGHT,))
    gate = Gate(session)
    gate.ask()
    step = session.sheet.step("wax_read")
    assert isinstance(step, ReadingStep)
    assert (step.seen, step.picture) == (SIGHT.seen, PICTURE)
    assert not gate.is_shut
    assert not is_held(step)


def test_what_was_shown_comes_back_without_a_checker(
    open_gated: Callable[[Part], Session], porter: Porter
) -> None:
    porter.says = Passed((SIGHT,))
    Gate(open_gated(Part.POSTLAB)).ask()
    porter.says = CheckerDiedError("show the readings", 137)
    again = open_gated(Part.PRELAB)
    assert not Gate(again).is_shut
    assert not is_held(again.sheet.step("wax_read"))


@pytest.mark.parametrize("content", [b"", b"{", b'{"sheet": 1}', b"\xff\xfe"])
def test_a_damaged_file_of_readings_is_asked_for_anew(
    session: Session, porter: Porter, content: bytes
) -> None:
    path = locate_readings(session.folder, session.sheet.id)
    path.write_bytes(content)
    gate = Gate(session)
    porter.says = Passed((SIGHT,))
    gate.ask()
    assert not gate.is_shut
    assert b"12.40 g" in path.read_bytes()


def test_readings_of_another_revision_are_not_shown(
    session: Session, gated: Sheet, porter: Porter
) -> None:
    porter.says = Passed((SIGHT,))
    Gate(session).ask()
    newer = replace(gated, id=replace(gated.id, revision=2))
    folder = session.folder / "newer"
    folder.mkdir()
    old = locate_readings(session.folder, session.sheet.id)
    locate_readings(folder, newer.id).write_bytes(old.read_bytes())
    other = Session(newer, Part.POSTLAB, folder, DirectChecker(porter))
    assert Gate(other).is_shut


def test_without_a_checker_there_is_one_sentence(
    session: Session, porter: Porter
) -> None:
    porter.says = CheckerDiedError("show the readings", 137)
    gate = Gate(session)
    gate.ask()
    assert gate.trouble.count(".") == 1
    assert gate.trouble.startswith("The checker can't be reached")
    assert gate.missing == ()


def test_a_refusal_is_told_in_its_own_words(session: Session, porter: Porter) -> None:
    porter.says = CheckerRefusedError("student", "You are not on the roster.")
    gate = Gate(session)
    gate.ask()
    assert gate.trouble == "You are not on the roster."


def test_an_answer_of_another_kind_opens_nothing(
    session: Session, porter: Porter
) -> None:
    porter.says = Sealed("5ea1")
    gate = Gate(session)
    gate.ask()
    assert gate.is_shut
    assert gate.trouble == "The checker did not answer with the readings."


def test_readings_that_can_t_be_kept_are_shown_all_the_same(
    session: Session, porter: Porter
) -> None:
    porter.says = Passed((SIGHT,))
    gate = Gate(session)
    # A folder stands in the place of the file.
    locate_readings(session.folder, session.sheet.id).mkdir()
    gate.ask()
    assert not gate.is_shut
    assert "can't be written" in gate.trouble
    assert gate.trouble.endswith("until this page is closed.")


def test_a_sheet_without_a_gate_is_open(sheet: Sheet, tmp_path: Path) -> None:
    session = Session(sheet, Part.POSTLAB, tmp_path, DirectChecker(Porter()))
    assert not Gate(session).is_shut
