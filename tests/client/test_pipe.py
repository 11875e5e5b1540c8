"""The checker as a child process: well, dead, slow, refusing, talking nonsense."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

import pytest

from workbook.client.pipe import PipeChecker
from workbook.errors import CheckerDiedError, CheckerRefusedError, CheckerSlowError
from workbook.wire.answer import Typed
from workbook.wire.message import JudgeAttempt, OpenSheet, Sealed
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from workbook.wire.message import Statement

pytestmark = pytest.mark.service

#: Long enough for Python to start on a busy machine [s].
AMPLE_S = 15.0
#: Short enough to wait for in vain [s].
SHORT_S = 0.5


def ask(checker: PipeChecker, limit_s: float = AMPLE_S) -> Statement:
    return checker.ask(OpenSheet(), task="open a sheet", limit_s=limit_s)


def test_questions_are_answered_one_after_the_other(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    checker = run_solver("say(number, seal=str(number))")
    assert [ask(checker) for _ in range(3)] == [Sealed("1"), Sealed("2"), Sealed("3")]


def test_a_process_that_dies_is_reported_as_dead_with_its_code(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    started_s = time.monotonic()
    with pytest.raises(CheckerDiedError, match="code 7 while asked to open") as caught:
        ask(run_solver("os._exit(7)"))
    assert caught.value.code == 7
    assert time.monotonic() - started_s < AMPLE_S


def test_a_process_that_leaves_a_child_behind_is_still_seen_to_be_dead(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    with pytest.raises(CheckerDiedError):
        ask(run_solver("os.fork() and os._exit(7); time.sleep(3); os._exit(0)"))


def test_a_program_that_is_not_there_is_a_dead_one(tmp_path: Path) -> None:
    with pytest.raises(CheckerDiedError):
        ask(PipeChecker(tmp_path, command=(str(tmp_path / "nothing"),)))


def test_after_a_death_the_next_question_starts_a_fresh_process(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    checker = run_solver("os._exit(7) if number == 1 else say(number)")
    with pytest.raises(CheckerDiedError):
        ask(checker)
    assert ask(checker) == Sealed("ab")


def test_a_process_that_stalls_is_slow_not_dead(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    with pytest.raises(CheckerSlowError, match=r"within 0\.5 s"):
        ask(run_solver("time.sleep(60)"), SHORT_S)


def test_a_late_reply_is_dropped_and_not_taken_for_the_next_one(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    checker = run_solver("number == 1 and time.sleep(1); say(number, seal=str(number))")
    with pytest.raises(CheckerSlowError):
        ask(checker, SHORT_S)
    assert ask(checker) == Sealed("2")


def test_a_process_that_is_silent_twice_is_replaced(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    checker = run_solver("number < 3 and time.sleep(60); say(number)")
    for _ in range(2):
        with pytest.raises(CheckerSlowError):
            ask(checker, SHORT_S)
    assert ask(checker) == Sealed("ab")


def test_a_question_larger_than_the_pipe_does_not_block_on_a_stalled_process(
    tmp_path: Path,
) -> None:
    stalled = (sys.executable, "-c", "import time; time.sleep(60)")
    checker = PipeChecker(tmp_path, command=stalled)
    sheet = SheetId("autumn", "cold-cream", 1, "s07")
    question = JudgeAttempt(sheet, "plan", Typed("1" * 1_000_000))
    with pytest.raises(CheckerSlowError):
        checker.ask(question, task="judge", limit_s=SHORT_S)
    checker.close()


@pytest.mark.parametrize("nonsense", ["hello", "[1, 2]", '{"version": 2, "number": 1}'])
def test_nonsense_is_refused_and_quoted(
    run_solver: Callable[[str], PipeChecker], nonsense: str
) -> None:
    with pytest.raises(CheckerRefusedError, match="no reply") as caught:
        ask(run_solver(f"print({nonsense!r}, flush=True)"))
    assert caught.value.code == "unreadable"


def test_another_version_is_refused_by_name(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    with pytest.raises(CheckerRefusedError, match=r"version 9 .* version 2") as caught:
        ask(run_solver("say(number, version=9)"))
    assert caught.value.code == "version"


def test_a_refusal_keeps_the_process(
    run_solver: Callable[[str], PipeChecker],
) -> None:
    refusal = (
        'print(json.dumps({"version": 2, "number": number, "statement": '
        '{"type": "refused", "why": "course", "reason": "No."}}), flush=True)'
    )
    checker = run_solver(f"{refusal} if number == 1 else say(number)")
    with pytest.raises(CheckerRefusedError, match=r"^No\.$"):
        ask(checker)
    assert ask(checker) == Sealed("ab")


def test_what_the_process_prints_as_errors_is_not_shown(
    run_solver: Callable[[str], PipeChecker], capfd: pytest.CaptureFixture[str]
) -> None:
    ask(run_solver("print('a hidden value', file=sys.stderr, flush=True); say(number)"))
    assert capfd.readouterr().err == ""


def test_closing_twice_is_no_trouble(run_solver: Callable[[str], PipeChecker]) -> None:
    checker = run_solver("say(number)")
    ask(checker)
    checker.close()
    checker.close()
