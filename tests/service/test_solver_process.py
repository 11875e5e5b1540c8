"""The solver as a process of its own: what it finds, answers, refuses and prints."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.support.lab import OLIVE_OIL
from tests.support.soap import LAB, answer_rightly, make_course, name_sheet
from workbook.solver.__main__ import COURSE_VARIABLE, TRIAL_COURSE
from workbook.solver.practice import PRACTICE
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.message import (
    MESSAGE_VERSION,
    JudgeAttempt,
    Judged,
    Opened,
    OpenSheet,
    Question,
    Refused,
    Reply,
    Request,
    Sealed,
    SealHandIn,
    Why,
    encode,
    read_reply,
)
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.service

#: So long may a solver take to start, answer and end [s].
LIMIT_S = 60.0

A1 = name_sheet("a1")


@dataclass(frozen=True)
class Run:
    """What a solver said in answer to some lines."""

    replies: list[Reply]
    code: int
    errors: str


def run_solver(
    folder: Path,
    *lines: bytes | Question,
    course: Path | None = None,
    module: str = "workbook.solver",
) -> Run:
    """Start a solver, say lines to it, and close its input."""
    said = b"".join(
        line if isinstance(line, bytes) else encode(Request(MESSAGE_VERSION, at, line))
        for at, line in enumerate(lines, 1)
    )
    environment = {k: v for k, v in os.environ.items() if k != COURSE_VARIABLE}
    if course is not None:
        environment[COURSE_VARIABLE] = str(course)
    done = subprocess.run(
        [sys.executable, "-P", "-m", module, str(folder)],
        input=said,
        capture_output=True,
        timeout=LIMIT_S,
        env=environment,
        check=False,
    )
    replies = [read_reply(line) for line in done.stdout.splitlines()]
    return Run(replies, done.returncode, done.stderr.decode())


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """Return the file of a course that lies apart from the students' folders."""
    (tmp_path / "server").mkdir()
    return make_course(tmp_path / "server")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a student's folder, with nothing in it."""
    made = tmp_path / "student"
    made.mkdir()
    return made


def test_a_lab_file_beside_the_notebooks_is_practised() -> None:
    run = run_solver(OLIVE_OIL, OpenSheet(None), OpenSheet(None))
    first, second = (reply.statement for reply in run.replies)
    assert isinstance(first, Opened)
    assert isinstance(second, Opened)
    assert first.sheet.id.course.startswith(PRACTICE)
    assert first.sheet.id.student != second.sheet.id.student
    assert run.code == 0


def test_a_course_is_found_by_its_variable(folder: Path, course: Path) -> None:
    source = CourseSource(course)
    right = answer_rightly(source.case(A1))
    run = run_solver(
        folder,
        OpenSheet(A1),
        JudgeAttempt(A1, "oil_mass", right["oil_mass"]),
        SealHandIn(A1, "ab"),
        course=course,
    )
    opened, judged, sealed = (reply.statement for reply in run.replies)
    assert opened == Opened(source.sheet(A1))
    assert isinstance(judged, Judged)
    assert judged.verdict.outcome is Outcome.RIGHT
    assert sealed == Sealed(source.seal(A1, "ab"))


def test_a_trial_is_found_in_its_folder(folder: Path) -> None:
    (folder / TRIAL_COURSE).parent.mkdir()
    source = CourseSource(make_course((folder / TRIAL_COURSE).parent))
    run = run_solver(folder, OpenSheet(A1))
    assert run.replies[0].statement == Opened(source.sheet(A1))


def test_a_named_course_that_is_missing_is_not_replaced_by_practice() -> None:
    run = run_solver(OLIVE_OIL, OpenSheet(None), course=OLIVE_OIL / "no.toml")
    assert refused(run.replies[0]).why is Why.LAB


def test_a_folder_without_a_checker_says_so(folder: Path) -> None:
    (reply,) = run_solver(folder, OpenSheet(None)).replies
    assert refused(reply).why is Why.SOURCE
    assert "Your answers are kept" in refused(reply).reason


def refused(reply: Reply) -> Refused:
    """Return what a reply refuses."""
    assert isinstance(reply.statement, Refused)
    return reply.statement


NONSENSE = (
    b"hello\n",
    b"\n",
    b"\xff\xfe\n",
    b"[]\n",
    b'{"version": 1}\n',
    b'{"version": 2, "number": 7, "question": {"type": "leak"}}\n',
    json.dumps({"version": 2, "number": 8, "question": "x" * 100_000}).encode() + b"\n",
    b"[" * 100_000 + b"\n",
)


OTHER_VERSION = (
    b'{"version": 9, "number": 5, "question": "of a later form", "new": 1}\n',
)

FOREIGN: dict[Why, Question] = {
    Why.COURSE: OpenSheet(replace(A1, course="other")),
    Why.REVISION: OpenSheet(replace(A1, revision=2)),
    Why.STUDENT: OpenSheet(replace(A1, student="nobody")),
    Why.STEP: JudgeAttempt(A1, "recovery", Typed("0.8")),
    Why.PRACTICE: OpenSheet(None),
}

HOSTILE = tuple(
    JudgeAttempt(A1, "soap_mass", Typed(text))
    for text in (
        "9" * 100_000 + " g",
        "1e999999999 g",
        "(" * 50_000,
        "\x00" * 99,
        "nan g",
    )
)


def test_a_solver_goes_on_whatever_is_said_to_it(folder: Path, course: Path) -> None:
    said = (*NONSENSE, *OTHER_VERSION, *FOREIGN.values(), *HOSTILE, OpenSheet(A1))
    talk = iter(run_solver(folder, *said, course=course).replies)
    nonsense = list(islice(talk, len(NONSENSE)))
    assert {refused(reply).why for reply in nonsense} == {Why.REQUEST}
    assert [reply.number for reply in nonsense] == [0, 0, 0, 0, 0, 7, 8, 0]
    later = next(talk)
    assert (later.number, refused(later).why) == (5, Why.VERSION)
    assert "version 9, the checker version 2" in refused(later).reason
    assert [refused(next(talk)).why for _ in FOREIGN] == list(FOREIGN)
    statements = [reply.statement for reply in talk]
    assert [type(each) for each in statements] == [Judged] * len(HOSTILE) + [Opened]


def break_lab(folder: Path) -> Path:
    """Copy the lab with a mistake in a relation, and return its folder."""
    broken = folder / LAB
    shutil.copytree(OLIVE_OIL, broken)
    file = broken / "lab.toml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("oil_volume * oil", "oil_volme * oil"), "utf-8")
    return broken


def test_a_lab_file_with_a_mistake_is_not_quoted_to_a_student(tmp_path: Path) -> None:
    run = run_solver(break_lab(tmp_path), OpenSheet(None))
    said = refused(run.replies[0])
    assert said.why is Why.LAB
    for secret in ("oil_volme", "lab.toml", str(tmp_path)):
        assert secret not in said.reason
    assert "oil_volme" in run.errors, "whoever runs the checker must learn of it"


_NOISY = """
import os, sys
import workbook.solver.desk as desk
quiet = desk.Desk.answer
def loud(self, question):
    print("a library prints")
    sys.stdout.write("and writes")
    sys.__stdout__.write("around it\\n"); sys.__stdout__.flush()
    os.write(1, b"or below it\\n")
    os.system("echo or in a child")
    return quiet(self, question)
desk.Desk.answer = loud
from workbook.solver.__main__ import main
sys.exit(main(sys.argv[1:]))
"""


def test_nothing_but_replies_is_printed(
    folder: Path, course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "noisy.py").write_text(_NOISY, encoding="utf-8")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    run = run_solver(folder, OpenSheet(A1), course=course, module="noisy")
    assert [type(reply.statement) for reply in run.replies] == [Opened]
    for noise in ("library prints", "and writes", "around", "below", "in a child"):
        assert noise in run.errors


def test_a_solver_without_its_folder_says_how_it_is_started() -> None:
    command = [sys.executable, "-m", "workbook.solver"]
    done = subprocess.run(command, capture_output=True, timeout=LIMIT_S, check=False)
    assert done.returncode == 1
    assert done.stdout == b""
    assert b"python -m workbook.solver FOLDER" in done.stderr


def test_a_solver_ends_when_its_notebook_does(folder: Path, course: Path) -> None:
    assert run_solver(folder, course=course) == Run([], 0, "")
