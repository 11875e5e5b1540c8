"""The child process that is spoken to by the line."""

from __future__ import annotations

import sys
import time

import pytest

from workbook.client.process import ENDED, LineProcess

pytestmark = pytest.mark.service


def start(program: str) -> LineProcess:
    return LineProcess((sys.executable, "-c", program))


def test_a_line_goes_in_and_a_line_comes_out() -> None:
    process = start("import sys; print(sys.stdin.readline().upper(), end='')")
    process.send(b"wax\n")
    assert process.receive(time.monotonic() + 15) == b"WAX\n"
    process.stop()


def test_the_end_of_the_process_is_told_after_its_last_line() -> None:
    process = start("print('last')")
    deadline = time.monotonic() + 15
    assert process.receive(deadline) == b"last\n"
    assert process.receive(deadline) == ENDED
    process.stop()


def test_a_deadline_that_passes_gives_nothing() -> None:
    process = start("import time; time.sleep(60)")
    assert process.receive(time.monotonic() + 0.2) is None
    process.stop()


def test_stopping_ends_a_process_that_does_not_listen() -> None:
    process = start("import time; time.sleep(60)")
    process.stop()
    assert process.code is not None


def test_a_process_that_reads_to_the_end_of_its_input_ends_by_itself() -> None:
    process = start("import sys; sys.stdin.read()")
    process.stop()
    assert process.code == 0
