"""500 wrong answers, put to a real solver, bring nobody nearer to the right ones."""

from __future__ import annotations

import json
import random
from typing import TYPE_CHECKING

import pytest

from tests.support.form_mistake import NEVER_WRONG
from tests.support.mistake import answer_wrongly, make_mistakes
from tests.support.notebook_run import (
    Line,
    read_lines,
    solver_command,
    tap_command,
)
from tests.support.search import Searcher, find_shared, pair
from workbook.client.pipe import PipeChecker
from workbook.wire.message import JudgeAttempt

if TYPE_CHECKING:
    from pathlib import Path

    from tests.support.secret import Secrets
    from workbook.judge.case import Case
    from workbook.wire.sheet import SheetId

pytestmark = pytest.mark.service

WRONG_ANSWERS = 500

#: How long a solver may take to start on a busy machine [s].
AMPLE_S = 60.0


def make_attempts(case: Case, sheet_id: SheetId) -> list[JudgeAttempt]:
    """Return wrong answers to all steps in turn, every second on wrong earlier ones."""
    chance = random.Random(20260302)  # noqa: S311  a test repeats itself
    every = case.graph.lab.public.asks
    asks = [ask for ask in every if ask.kind not in NEVER_WRONG]
    endless = {ask.id: make_mistakes(case, ask, chance) for ask in asks}
    wrong = {ask.id: answer_wrongly(ask.id) for ask in asks}
    attempts = []
    for number in range(WRONG_ANSWERS):
        step = asks[number % len(asks)].id
        standing = {k: v for k, v in wrong.items() if k != step and number % 2}
        attempts.append(JudgeAttempt(sheet_id, step, next(endless[step]), standing))
    return attempts


@pytest.fixture(scope="module")
def refusals(
    course: Path,
    case: Case,
    sheet_id: SheetId,
    tmp_path_factory: pytest.TempPathFactory,
) -> tuple[Line, ...]:
    """Put 500 wrong answers to a real solver, and give every line that was said."""
    folder = tmp_path_factory.mktemp("wrong")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("WORKBOOK_COURSE", str(course))
        command = tap_command(folder / "lines", solver_command(folder))
        checker = PipeChecker(folder, command=command)
        for attempt in make_attempts(case, sheet_id):
            checker.ask(attempt, task="judge", limit_s=AMPLE_S)
        checker.close()
    return read_lines(folder / "lines")


def test_500_wrong_answers_are_all_told_to_be_wrong(
    refusals: tuple[Line, ...],
) -> None:
    said = [line.message["statement"]["verdict"] for line in refusals if line.is_reply]
    assert len(said) == WRONG_ANSWERS
    assert [each for each in said if each["value_holds"]] == []
    outcomes = {each["outcome"] for each in said}
    assert {"wrong", "unread", "dimension", "asked"} <= outcomes
    assert outcomes.isdisjoint({"right", "follows", "figures"})


def test_500_wrong_answers_leak_no_digit_of_the_right_one(
    secrets: Secrets, refusals: tuple[Line, ...]
) -> None:
    assert find_shared(secrets, refusals) == []


def test_500_wrong_answers_tell_no_option_that_is_right(
    secrets: Secrets, case: Case, refusals: tuple[Line, ...]
) -> None:
    texts = {ask.id: dict(ask.options) for ask in case.graph.lab.public.asks}
    for choice in secrets.choices:
        for question, said in pair(refusals):
            if question["step"] == choice.step:
                told = {*choice.options, *texts[choice.step].values()}
                assert not any(f'"{each}"' in said for each in told)
                assert not any(texts[choice.step][r] in said for r in choice.right)


def test_500_wrong_answers_bring_no_secret_at_all(
    secrets: Secrets, refusals: tuple[Line, ...]
) -> None:
    for question, said in pair(refusals):
        searcher = Searcher(secrets, json.dumps(question["answer"]))
        assert searcher.find_in_document(said) == []
