"""What waits for a verdict, and in which order it goes."""

from __future__ import annotations

import asyncio
import threading
import time
from typing import TYPE_CHECKING

import pytest

from workbook.client.delay import Delay
from workbook.client.direct import DirectChecker
from workbook.client.history import History
from workbook.client.outbox import Outbox
from workbook.client.place import Part
from workbook.client.transport import LIMIT_S
from workbook.errors import (
    CheckerAwayError,
    CheckerError,
    CheckerRefusedError,
    CheckerSlowError,
)
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from tests.client.conftest import FakeJudge
    from workbook.wire.handin import Attempt
    from workbook.wire.message import Statement
    from workbook.wire.sheet import Sheet

AWAY = CheckerAwayError("judge an answer", "nothing answers at its address")
NO_MORE = CheckerRefusedError("attempts", "No attempt is left at this step.")


@pytest.fixture
def history(folder: Path, sheet: Sheet) -> History:
    return History(folder, sheet.id, Part.POSTLAB)


@pytest.fixture
def outbox(history: History, judge: FakeJudge, sheet: Sheet) -> Outbox:
    return Outbox(history, DirectChecker(judge), sheet.id)


def keep(history: History, *texts: str) -> list[Attempt]:
    return [history.keep("wax_mass", Typed(text)) for text in texts]


def texts_of(judge: FakeJudge) -> list[str]:
    return [getattr(asked.answer, "text", "") for asked in judge.judged]


def fail_on(judge: FakeJudge, text: str, error: CheckerError) -> None:
    """Let a judge fail on one answer alone."""

    def look() -> None:
        judge.fault = error if texts_of(judge)[-1] == text else None

    judge.on_question = look


def test_the_oldest_goes_first_with_its_id(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    kept = keep(history, "1 g", "2 g", "3 g")
    outbox.send(kept[-1])
    assert [asked.attempt for asked in judge.judged] == [each.id for each in kept]
    assert outbox.waiting == []


def test_what_waits_in_the_other_notebook_goes_along_by_its_time(
    folder: Path, history: History, outbox: Outbox, judge: FakeJudge, sheet: Sheet
) -> None:
    prelab = History(folder, sheet.id, Part.PRELAB)
    prelab.keep("plan", Typed("3 g"))
    keep(history, "1 g")
    outbox.send()
    assert [asked.step for asked in judge.judged] == ["plan", "wax_mass"]
    prelab.own.read_on()
    assert prelab.unjudged == ()


def test_nothing_overtakes_an_answer_that_the_checker_can_t_take_now(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    kept = keep(history, "1 g", "2 g")
    judge.fault = AWAY
    outbox.send(kept[-1])
    assert texts_of(judge) == ["1 g"]
    assert "nothing answers" in outbox.wait.explain(kept[1].id)
    assert outbox.waiting == kept


def test_a_refusal_for_good_holds_nothing_up_and_is_kept(
    folder: Path, history: History, outbox: Outbox, judge: FakeJudge, sheet: Sheet
) -> None:
    kept = keep(history, "1 g", "2 g")
    fail_on(judge, "1 g", NO_MORE)
    outbox.send(kept[-1])
    assert texts_of(judge) == ["1 g", "2 g"]
    assert outbox.waiting == []
    again = History(folder, sheet.id, Part.POSTLAB).own
    assert again.refusal(kept[0].id).startswith("No attempt is left at this step.")


def test_an_answer_that_was_refused_does_not_stand(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    kept = keep(history, "1 g", "2 g")
    fail_on(judge, "2 g", NO_MORE)
    outbox.send(kept[-1])
    assert history.stand().answers == {"wax_mass": Typed("1 g")}
    assert history.stand().is_right("wax_mass")


def test_a_person_can_have_a_refused_answer_sent_once_more(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    (kept,) = keep(history, "1 g")
    judge.fault = NO_MORE
    outbox.send(kept)
    judge.fault = None
    outbox.send()
    assert len(judge.judged) == 1
    outbox.send(kept)
    assert history.own.refusal(kept.id) == ""
    assert history.own.verdict(kept.id) is not None


def test_an_answer_on_which_the_checker_stalls_again_and_again_goes_last(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    kept = keep(history, "1 g", "2 g")
    fail_on(judge, "1 g", CheckerSlowError("judge an answer", 20.0))
    outbox.send()
    outbox.send()
    outbox.send()
    assert texts_of(judge) == ["1 g", "1 g", "2 g", "1 g"]
    assert outbox.waiting == kept[:1]


def test_who_asks_is_not_asked_for_again_and_again(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    (kept,) = keep(history, "1 g")
    judge.fault = CheckerRefusedError("caller", "The checker does not know who asks.")
    outbox.send()
    assert outbox.delay is Delay.MENDED
    assert "run this notebook again" in outbox.wait.explain(kept.id)


def test_whoever_waits_is_told_of_each_answer_that_has_to(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    told: list[str] = []
    outbox.on_news, outbox.on_wait = told.append, lambda: told.append("wait")
    keep(history, "1 g", "2 g")
    judge.fault = AWAY
    outbox.send()
    assert told == ["wax_mass", "wax_mass", "wait"]


def test_whoever_waits_is_not_kept_waiting_by_all_that_waits_before(
    history: History, judge: FakeJudge, sheet: Sheet
) -> None:
    checker = DirectChecker(judge)
    checker.patience_s = 0.05
    outbox = Outbox(history, checker, sheet.id)
    kept = keep(history, "1 g", "2 g")
    judge.on_question = lambda: time.sleep(0.1)
    outbox.send(kept[-1])
    assert texts_of(judge) == ["1 g"]
    assert "the answers before this one took long" in outbox.wait.explain(kept[1].id)
    outbox.send()
    assert texts_of(judge) == ["1 g", "2 g"]


def test_only_while_somebody_waits_is_the_time_for_an_answer_short(
    history: History, judge: FakeJudge, sheet: Sheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    checker, limits_s = DirectChecker(judge), list[float]()

    def stall(_: object, *, task: str, limit_s: float) -> Statement:
        limits_s.append(limit_s)
        raise CheckerSlowError(task, limit_s)

    checker.patience_s = 3.0
    monkeypatch.setattr(checker, "ask", stall)
    outbox = Outbox(history, checker, sheet.id)
    (kept,) = keep(history, "1 g")
    outbox.send(kept)
    asyncio.run(outbox.send_aside())
    assert 0 < limits_s[0] <= 3
    assert limits_s[1:] == [LIMIT_S]
    assert outbox.waiting == [kept]


def test_sent_aside_a_question_is_put_in_a_thread_of_its_own(
    history: History, outbox: Outbox, judge: FakeJudge
) -> None:
    threads: list[threading.Thread] = []
    judge.on_question = lambda: threads.append(threading.current_thread())
    (kept,) = keep(history, "1 g")
    asyncio.run(outbox.send_aside())
    verdict = history.own.verdict(kept.id)
    assert verdict is not None
    assert verdict.outcome is Outcome.RIGHT
    assert threads != [threading.current_thread()]
    assert outbox.wait.tell_end(kept.id).startswith("Sent and judged at ")
