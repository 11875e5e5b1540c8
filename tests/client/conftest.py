"""A small sheet, a judge that can be told what to say, and fake solver programs."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import msgspec
import pytest

from workbook.client.direct import DirectChecker
from workbook.client.pipe import PipeChecker
from workbook.client.place import SHEET_FILE, Part
from workbook.client.session import Session, open_session
from workbook.wire.message import (
    Held,
    JudgeAttempt,
    Judged,
    Opened,
    OpenSheet,
    Sealed,
    SealHandIn,
)
from workbook.wire.sheet import SHEET_VERSION, NumberStep, OwnStep, Sheet, SheetId
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from workbook.wire.message import Question, Statement

SHEET = Sheet(
    version=SHEET_VERSION,
    id=SheetId("autumn", "cold-cream", 1, "s07"),
    title="Cold cream",
    about="Beeswax is melted into almond oil.",
    equations=(),
    reagents=(),
    cautions=(),
    givens=(),
    rules=(),
    prelab=(NumberStep(id="plan", asks="What mass of wax do you need?", unit="g"),),
    postlab=(
        NumberStep(id="wax_mass", asks="What mass of wax did you use?", unit="g"),
        NumberStep(id="wax_share", asks="What share is wax?", unit="%"),
        OwnStep(id="jar", asks="What does your jar weigh?", unit="g", instrument=""),
    ),
)


class FakeJudge:
    """Answers every question, and remembers what it was asked."""

    def __init__(self) -> None:
        self.asked: list[Question] = []
        self.outcomes: dict[str, Outcome] = {}
        #: Raised instead of answering, when set.
        self.fault: Exception | None = None
        #: Called before each question is answered.
        self.on_question: Callable[[], None] = lambda: None

    def __call__(self, question: Question) -> Statement:
        """Answer, or raise the fault that was set."""
        self.asked.append(question)
        self.on_question()
        if self.fault is not None:
            raise self.fault
        if isinstance(question, OpenSheet):
            return Opened(SHEET)
        if isinstance(question, JudgeAttempt):
            outcome = self.outcomes.get(question.step, Outcome.RIGHT)
            return Judged(Verdict(outcome, f"Said of {question.step}."))
        if isinstance(question, SealHandIn):
            return Sealed(f"seal of {question.digest[:4]}")
        return Held(())

    @property
    def judged(self) -> list[JudgeAttempt]:
        """The attempts that came to be judged, in order."""
        return [asked for asked in self.asked if isinstance(asked, JudgeAttempt)]


@pytest.fixture
def sheet() -> Sheet:
    return SHEET


@pytest.fixture
def judge() -> FakeJudge:
    return FakeJudge()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / SHEET_FILE).write_bytes(msgspec.json.encode(SHEET))
    return tmp_path


@pytest.fixture
def open_part(folder: Path, judge: FakeJudge) -> Callable[[Part], Session]:
    return lambda part: open_session(folder, part, DirectChecker(judge))


#: A solver that seals whatever it is asked; {body} may change what it does.
_SOLVER = """
import json, os, sys, time
def say(number, version=2, seal="ab"):
    reply = {{"version": version, "number": number,
              "statement": {{"type": "sealed", "seal": seal}}}}
    print(json.dumps(reply), flush=True)
for line in sys.stdin:
    number = json.loads(line)["number"]
    {body}
"""


@pytest.fixture
def run_solver(tmp_path: Path) -> Iterator[Callable[[str], PipeChecker]]:
    """Give a checker whose program does *body* with each request's number."""
    started: list[PipeChecker] = []

    def run(body: str) -> PipeChecker:
        command = (sys.executable, "-c", _SOLVER.format(body=body))
        started.append(PipeChecker(tmp_path, command=command))
        return started[-1]

    yield run
    for checker in started:
        checker.close()
