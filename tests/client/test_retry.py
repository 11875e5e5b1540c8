"""What waits is sent again by itself."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import pytest

from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.retry import PAUSES_S, Retry
from workbook.client.session import open_session
from workbook.errors import CheckerAwayError, CheckerRefusedError
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tests.client.conftest import FakeJudge
    from workbook.client.session import Session

AWAY = CheckerAwayError("judge an answer", "nothing answers at its address")


@pytest.fixture
def waiting(open_part: Callable[[Part], Session], judge: FakeJudge) -> Session:
    """Return a session in which one answer waits."""
    session = open_part(Part.POSTLAB)
    judge.fault = AWAY
    session.submit("wax_mass", Typed("1.50 g"))
    return session


async def follow(session: Session) -> Retry:
    """Send again until nothing more is sent."""
    retry = Retry(session.outbox, (0.001, 0.002))
    assert retry.start()
    assert retry.task is not None
    await asyncio.wait_for(retry.task, 5)
    return retry


def test_the_pauses_grow_from_two_seconds_to_a_minute() -> None:
    assert (PAUSES_S[0], PAUSES_S[-1]) == (2, 60)
    assert sorted(PAUSES_S) == list(PAUSES_S)


def test_what_waits_is_sent_until_it_is_judged(
    waiting: Session, judge: FakeJudge
) -> None:
    def come_back() -> None:
        judge.fault = None if len(judge.judged) > 3 else AWAY

    judge.on_question = come_back
    asyncio.run(follow(waiting))
    last = waiting.last("wax_mass")
    assert last is not None
    assert last[1].outcome is Outcome.RIGHT
    assert waiting.tell_late("wax_mass").startswith("Sent and judged at ")


def test_it_ends_with_the_last_verdict_and_not_a_pause_later(
    waiting: Session, judge: FakeJudge
) -> None:
    async def end() -> None:
        retry = Retry(waiting.outbox, (0.001, 600.0))
        retry.start()
        assert retry.task is not None
        await asyncio.wait_for(retry.task, 60)

    judge.fault = None
    asyncio.run(end())
    assert waiting.outbox.waiting == []


def test_what_needs_a_person_is_not_sent_again_and_again(
    waiting: Session, judge: FakeJudge
) -> None:
    judge.fault = CheckerRefusedError("caller", "The checker does not know who asks.")
    asyncio.run(follow(waiting))
    assert len(judge.judged) == 2


def test_a_checker_that_is_away_is_looked_for_and_not_asked(
    folder: Path, judge: FakeJudge, monkeypatch: pytest.MonkeyPatch
) -> None:
    checker, looks = DirectChecker(judge), iter(["away", "away", ""])
    session = open_session(folder, Part.POSTLAB, checker)
    judge.fault = AWAY
    session.submit("wax_mass", Typed("1.50 g"))
    judge.fault = None
    monkeypatch.setattr(checker, "look", lambda: next(looks))
    asyncio.run(follow(session))
    assert len(judge.judged) == 2


def test_nothing_is_begun_where_no_loop_runs(waiting: Session) -> None:
    retry = Retry(waiting.outbox)
    assert not retry.start()
    retry.stop()
    assert retry.task is None


def test_nothing_is_begun_where_nothing_waits(
    open_part: Callable[[Part], Session],
) -> None:
    async def begin() -> bool:
        return Retry(open_part(Part.POSTLAB).outbox).start()

    assert not asyncio.run(begin())


def test_what_was_begun_is_not_begun_twice_and_can_be_stopped(waiting: Session) -> None:
    async def begin() -> bool:
        retry = Retry(waiting.outbox)
        retry.start()
        first = retry.task
        retry.start(is_at_once=True)
        is_same = retry.task is first
        retry.stop()
        await asyncio.wait([first] if first else [])
        return is_same and first is not None and first.cancelled()

    assert asyncio.run(begin())
