"""
Nothing that a student typed is lost, whatever ends in the middle.

Kernel and checker are real processes, and are killed as a machine does it. Each test
says what the student sees.
"""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.support.command import run
from tests.support.kernel import Kernel
from tests.support.soap import LAB, STUDENTS, answer_rightly, make_course
from workbook.client.history import History
from workbook.client.place import Part, read_sheet
from workbook.solver.source import CourseSource
from workbook.wire.handin import HandIn

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from workbook.judge.case import Case

pytestmark = pytest.mark.service

STEP, OTHER = "oil_volume", "lye_volume"

#: How long a process may take to end on a busy machine [s].
AMPLE_S = 20.0


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_course(tmp_path_factory.mktemp("course"))


@pytest.fixture(scope="module")
def case(course: Path) -> Case:
    return CourseSource(course).cases(LAB, STUDENTS)[0]


@pytest.fixture(scope="module")
def right(case: Case) -> dict[str, str]:
    """Return what the first student reads off the two cylinders."""
    return {step: f"{case.values[step]:.1f} mL" for step in (STEP, OTHER)}


@pytest.fixture
def folder(course: Path, case: Case, tmp_path: Path) -> Path:
    """Issue the first student's folder, and pass the gate before the lab."""
    assert run("issue", course, "--to", tmp_path / "out").exit_code == 0
    folder = tmp_path / "out" / "students" / STUDENTS[0] / LAB
    sheet = read_sheet(folder)
    assert sheet is not None
    prelab = History(folder, sheet.id, Part.PRELAB)
    for step in sheet.gate:
        prelab.keep(step, answer_rightly(case)[step])
    return folder


@pytest.fixture
def open_kernel(folder: Path, course: Path) -> Iterator[Callable[[], Kernel]]:
    """Start a kernel on the folder, each time it is asked; all end with the test."""
    started: list[Kernel] = []

    def start() -> Kernel:
        started.append(Kernel(folder, course))
        return started[-1]

    yield start
    for kernel in started:
        kernel.close()


def wait_until_gone(pid: int) -> None:
    """Wait until a process has ended that is no child of ours."""
    deadline = time.monotonic() + AMPLE_S
    while Path(f"/proc/{pid}").exists():
        assert time.monotonic() < deadline, f"Process {pid} still runs."
        time.sleep(0.05)


def read_hand_in(folder: Path) -> list[str]:
    """Return the steps after the lab of the attempts that were handed in."""
    content = (folder / f"{STUDENTS[0]}.handin.json").read_bytes()
    steps = [a.step for a in msgspec.json.decode(content, type=HandIn).attempts]
    return [step for step in steps if step in {STEP, OTHER}]


def test_a_killed_kernel_loses_no_letter(open_kernel: Callable[[], Kernel]) -> None:
    kernel = open_kernel()
    for text in ("1", "12", "12."):
        kernel.type(STEP, text)
    kernel.kill()
    assert open_kernel().show(STEP) == ("12.", "")


def test_a_kernel_killed_while_the_checker_judges_gets_the_verdict_when_opened_again(
    open_kernel: Callable[[], Kernel], right: dict[str, str]
) -> None:
    kernel = open_kernel()
    kernel.type(OTHER, "lots")
    assert "Not understood." in kernel.check(OTHER)
    checker = kernel.find_checker()
    os.kill(checker, signal.SIGSTOP)
    kernel.type(STEP, right[STEP])
    kernel.send("check", STEP)
    time.sleep(1)
    kernel.kill()
    text, says = open_kernel().show(STEP)
    assert (text, "Agrees." in says) == (right[STEP], True)
    # An orphan must not stay behind: it sees that nobody speaks to it, and ends.
    os.kill(checker, signal.SIGCONT)
    wait_until_gone(checker)


def test_a_checker_killed_while_it_judges_costs_a_second_press(
    open_kernel: Callable[[], Kernel], folder: Path, right: dict[str, str]
) -> None:
    kernel = open_kernel()
    kernel.type(OTHER, right[OTHER])
    assert "Agrees." in kernel.check(OTHER)
    checker = kernel.find_checker()
    os.kill(checker, signal.SIGSTOP)
    kernel.type(STEP, right[STEP])
    kernel.send("check", STEP)
    time.sleep(1)
    os.kill(checker, signal.SIGKILL)
    says = kernel.see()[1]
    assert "Not judged yet." in says
    assert "Your answer is kept, and will be sent again." in says
    assert "Agrees." in kernel.check(STEP)
    kernel.hand_in()
    assert read_hand_in(folder) == [OTHER, STEP]


def test_a_full_disk_is_told_at_every_key_and_costs_nothing_once_there_is_room(
    open_kernel: Callable[[], Kernel], folder: Path, right: dict[str, str]
) -> None:
    kernel = open_kernel()
    assert kernel.type(STEP, "1") == ""
    record = folder / f"{LAB}-postlab.attempts.jsonl"
    # Room for the half of a line.
    kernel.limit(record.stat().st_size + 30)
    says = kernel.type(STEP, right[STEP])
    assert "can't be written" in says
    assert "What you type is not kept until that is put right" in says
    assert "Your answer was not kept, and not sent." in kernel.check(STEP)
    kernel.limit(None)
    assert "Agrees." in kernel.check(STEP)
    kernel.kill()
    again = open_kernel()
    assert again.show(STEP)[0] == right[STEP]
    assert "Agrees." in again.show(STEP)[1]
    assert "Line 3 of" in again.head()


def test_a_hand_in_that_does_not_fit_leaves_nothing_and_is_told(
    open_kernel: Callable[[], Kernel], folder: Path
) -> None:
    kernel = open_kernel()
    kernel.head()
    before = sorted(folder.iterdir())
    kernel.limit(30)
    assert "The hand-in can't be written to this folder" in kernel.hand_in()
    assert sorted(folder.iterdir()) == before
    kernel.limit(None)
    assert "Written to" in kernel.hand_in()


@pytest.fixture
def pages(
    open_kernel: Callable[[], Kernel], right: dict[str, str]
) -> dict[str, Kernel]:
    """Type into two kernels on one sheet at once, one step in each."""
    pages = {STEP: open_kernel(), OTHER: open_kernel()}
    for step, kernel in pages.items():
        assert kernel.show(step) == ("", "")
    for at in range(1, len(right[STEP]) + 1):
        # Neither waits for the other between its keys.
        for step, kernel in pages.items():
            kernel.send("type", step, right[step][:at])
    for kernel in pages.values():
        for _ in right[STEP]:
            kernel.see()
    return pages


def test_two_kernels_on_one_sheet_tell_the_student_and_hand_in_both_answers(
    pages: dict[str, Kernel], folder: Path
) -> None:
    for step, kernel in pages.items():
        assert "open in a second place" in kernel.check(step)
        assert "open in a second place" in kernel.head()
    assert "Written to" in pages[STEP].hand_in()
    assert sorted(read_hand_in(folder)) == sorted((STEP, OTHER))


def test_what_was_answered_in_two_kernels_is_seen_by_both_when_opened_again(
    pages: dict[str, Kernel], open_kernel: Callable[[], Kernel], right: dict[str, str]
) -> None:
    for step, kernel in pages.items():
        kernel.check(step)
    for again in (open_kernel(), open_kernel()):
        for step in pages:
            text, says = again.show(step)
            assert (text, "Agrees." in says) == (right[step], True)
        assert "open in a second place" not in again.head()
